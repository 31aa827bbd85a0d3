/** Header by which a page that is served over the loopback port says which one it is: a new id for each load. */
export const PAGE_ID_HEADER = 'x-kerfgrip-page';
