/** Places of bins in the walk. By themselves, so that a form can hold to them without all the schemas. */
export const furthestPlace = 1_000_000;
/** So much a bin may stand behind the one before it, when several are placed at once. */
export const furthestStep = 1000;
