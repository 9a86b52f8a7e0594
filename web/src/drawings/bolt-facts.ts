export type Bolt = {
  readonly id: string;
  /** Its number, as lettered. */
  readonly number: string;
  /** Position in mm, x to the right, y upward, from any origin. */
  readonly x: number;
  readonly y: number;
  /** Its place in the tightening order, where that isn't its number: lettered small beside it. */
  readonly place?: number;
  readonly stagesDone: number;
};
