/** Files that stores take in and give out. */
export const storeFiles = {
  title: 'Files',
  bringOf: {
    bins: 'Bring bins in from a file',
    kits: 'Bring kits in from a file',
    parts: 'Bring parts in from a file',
  },
  how: {
    bins: 'A CSV file with the column code; walk_order and closed when there are any. A known code is changed, what a row leaves empty stays.',
    kits: 'A CSV file with the columns family, kit, part and quantity, one row a part of a kit. A kit that the file names gets the very parts its rows say; other kits stay as they are.',
    parts:
      'A CSV file with the columns number and name, and any of those that the file of all parts has. A known number is changed, what a row leaves empty stays.',
  },
  whole: 'All of it is kept, or none.',
  file: 'The file',
  fileHint: (rows: string) => `${rows} rows are read`,
  check: 'Check it',
  checking: 'Checking …',
  keep: 'Keep it',
  keeping: 'Keeping …',
  close: 'Close',
  would: (rows: string, added: string, changed: string, unchanged: string) =>
    `${rows} rows are right: ${added} new, ${changed} changed, ${unchanged} as they stand already. Nothing is kept yet.`,
  kept: (added: string, changed: string) => `Kept: ${added} new, ${changed} changed.`,
  wrong: 'Nothing of the file was kept. What is wrong with it:',
  where: 'Where',
  what: 'What is wrong',
  out: {
    bins: 'Bins (CSV)',
    kits: 'Kits (CSV)',
    parts: 'Parts (CSV)',
    stock: 'Stock (CSV)',
    prices: 'Prices (CSV)',
    orders: 'Orders (CSV)',
    short: 'Shortages (CSV)',
    wanted: 'What jobs want (CSV)',
    cores: 'Cores (CSV)',
    movements: 'Movements (CSV)',
    allMovements: 'All of its movements (CSV)',
    vendorPrices: 'What this vendor asks (CSV)',
  },
} as const;
