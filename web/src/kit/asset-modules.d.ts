/** The address under which the bundler serves a file. */
declare module '*?url' {
  const address: string;
  // biome-ignore lint/style/noDefaultExport: that is how the bundler hands it out
  export default address;
}
