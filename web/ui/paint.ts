/** A person's paint for SVG fills and inline styles; ink where nobody's is known. */
export const paintColour = (paint: string | undefined): string =>
  paint ? `var(--paint-${paint})` : 'var(--ink)'
