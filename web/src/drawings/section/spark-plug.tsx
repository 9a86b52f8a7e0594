/** Drawn whole, as plugs and bolts are in a section; `seat` is the height of its electrode. */
export function SparkPlug({ seat }: { readonly seat: number }) {
  return (
    <g transform={`translate(0 ${seat})`}>
      <path
        d="M-4.5-2V-21H4.5V-2ZM-8-21V-30H8V-21ZM-5-30V-56L-3-60H3L5-56V-30ZM-2-60V-66H2V-60Z"
        className="n f-paper"
      />
      <path d="M-4.5-5H4.5M-4.5-9H4.5M-4.5-13H4.5M-4.5-17H4.5M-5-38H5M-5-43H5M-5-48H5M0-2V2M-4-2V4H1.5" className="n" />
    </g>
  );
}
