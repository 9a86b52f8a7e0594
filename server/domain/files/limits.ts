/** So many bytes a photo or document may have: 25 MiB. */
export const MOST_PHOTO_BYTES = 25 * 1024 * 1024;
