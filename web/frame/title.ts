/** The page's name in the browser's tab. */
import { createEffect } from 'solid-js'

export function usePageTitle(title: () => string): void {
  createEffect(() => {
    document.title = `${title()} · Paintmark`
  })
}
