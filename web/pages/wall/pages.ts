/** How the wall shares its engines out: as many to a page as can be read across the room, pages as even as can be. */

/** A row needs a share of the height to be legible from 5 m, and a share of the width not to look lost. */
const ROW_VH = 28
/** On a phone the reason and the strip stand below the number: a row is higher, and its measure the one of `wall.css`. */
const NARROW_PX = 704
const NARROW_ROW = 44
const HEAD_VH = 11
const MOST = 6

export function rowsFor(height: number, width: number): number {
  const narrow = width <= NARROW_PX
  const unit = (narrow ? Math.min(height * 0.75, width * 1.35) : Math.min(height, width * 0.62)) / 100
  const row = (narrow ? NARROW_ROW : ROW_VH) * unit
  return Math.max(1, Math.min(MOST, Math.floor((height - HEAD_VH * unit) / row)))
}

/** As many as turn round within two minutes: whoever waits longer for an engine has gone to the board. */
const MOST_PAGES = 8

/** What the wall shows: all, or the first by what needs attention. */
export const shownOf = <T>(all: readonly T[], rows: number): readonly T[] => all.slice(0, rows * MOST_PAGES)

export function pagesOf<T>(all: readonly T[], rows: number): T[][] {
  const count = Math.ceil(all.length / rows)
  if (count === 0) return []
  const start = (page: number) => Math.round((page * all.length) / count)
  return Array.from({ length: count }, (_, page) => all.slice(start(page), start(page + 1)))
}

/** The page after this one, or before it; round and round. */
export const turned = (page: number, by: number, count: number): number =>
  count === 0 ? 0 : (((page + by) % count) + count) % count
