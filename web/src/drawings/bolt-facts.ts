export type Bolt = {
  readonly id: string;
  /** Its number in the tightening order, as lettered. */
  readonly number: string;
  /** Position in mm, x to the right, y upward, from any origin. */
  readonly x: number;
  readonly y: number;
  readonly stagesDone: number;
};
