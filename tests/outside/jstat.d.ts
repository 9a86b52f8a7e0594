/** The part of jstat (which ships no types) that the checks lean on. */
declare module 'jstat' {
  const jstat: {
    readonly normal: { cdf(x: number, mean: number, sd: number): number };
    readonly centralF: { cdf(f: number, above: number, below: number): number };
    readonly studentt: { cdf(t: number, dof: number): number; inv(p: number, dof: number): number };
  };
  // biome-ignore lint/style/noDefaultExport: describes what jstat exports
  export default jstat;
}
