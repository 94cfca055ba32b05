/** A choice stored on this device, where the browser lets it be; else it holds until the page is closed. */
export function recall(key: string): string | undefined {
  try {
    return localStorage.getItem(key) ?? undefined
  } catch {
    return undefined
  }
}

export function remember(key: string, value: string): void {
  try {
    localStorage.setItem(key, value)
  } catch {
    // A full or forbidden store.
  }
}
