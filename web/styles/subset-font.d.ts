/** What we use of the package, which brings no types of its own. */
declare module 'subset-font' {
  export default function subsetFont(
    font: Uint8Array,
    text: string,
    options: { targetFormat: 'woff2'; keepFeatures?: string[]; noHinting?: boolean },
  ): Promise<Uint8Array>
}
