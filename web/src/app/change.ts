/** What the server tells of a write: ids only. */
export interface Change {
  readonly id: string;
  readonly kind: string;
  readonly engineId: string | null;
  readonly jobId: string | null;
}
