/** Which part of the shop page an address below `/shop` means. */
export const PARTS = [
  { id: 'people', title: 'People' },
  { id: 'wrenches', title: 'Wrenches' },
  { id: 'tolerances', title: 'Tolerances' },
  { id: 'plans', title: 'Plans' },
  // For whoever leads.
  { id: 'backups', title: 'Backups' },
] as const
export type PartId = (typeof PARTS)[number]['id']

export type Where =
  | { part: PartId }
  | { part: 'plans'; read: true }
  | { part: 'plans'; sheet: true }
  | { part: 'plans'; draft: string }
  | { part: 'plans'; plan: { id: string; edition: number } }

/** What follows `/shop/`; an address that means nothing is the first part. */
export function whereIs(rest: string): Where {
  const [part, id, edition] = rest.split('/').filter(Boolean).map(decoded)
  if (part === 'plans' && id !== undefined) {
    if (id === 'read-one' && edition === undefined) return { part, read: true }
    if (id === 'from-sheet' && edition === undefined) return { part, sheet: true }
    if (id === 'draft' && edition?.startsWith('d-')) return { part, draft: edition }
    if (/^\d+$/.test(edition ?? '')) return { part, plan: { id, edition: Number(edition) } }
  }
  return { part: PARTS.find(({ id }) => id === part)?.id ?? 'people' }
}

function decoded(text: string): string {
  try {
    return decodeURIComponent(text)
  } catch {
    return text
  }
}
