/** Words of the squared sheet on which fasteners are set by hand. */
export const boltSheet = {
  reach: 'Middle to edge',
  step: 'To the nearest',
  sheet: (count: number) => `Squared sheet, ${count} ${count === 1 ? 'fastener' : 'fasteners'} on it`,
  how: 'Tap where each sits, in tightening order, seen from above; a tap on one takes it out. With keys: arrows move the cross, Enter sets.',
  cross: (x: string, y: string) => `Cross at x ${x}, y ${y} mm`,
};
