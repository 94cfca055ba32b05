/** The addresses of the pages, as the router writes them: the server gives the page out at these and no others. */
export const PAGE_PATHS = [
  '/',
  '/wall',
  '/sign-in',
  '/first-run',
  '/first-look',
  '/jobs/:id',
  '/jobs/:id/bench/:stepId?',
  '/jobs/:id/audit',
  '/jobs/:id/settle/:joint/:pass',
  '/jobs/:id/record/:number',
  '/desk',
  '/shop/*rest',
] as const

export type PagePath = (typeof PAGE_PATHS)[number]

/** The addresses of a page. */
export const addressesOf = (path: string): RegExp => {
  const named = path.replace(/\/:\w+\?/g, '(/[^/]+)?').replace(/:\w+/g, '[^/]+')
  return new RegExp(`^${named.replace(/\/?\*\w*$/, '(/.*)?').replace(/^\/$/, '')}/?$`)
}

const ALL = PAGE_PATHS.map(addressesOf)

/** `path` as it stands in the address, escapes and all. */
export const isPage = (path: string): boolean => ALL.some((addresses) => addresses.test(path))
