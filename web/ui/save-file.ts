/** Gives somebody what a page holds as a file of their own. */
export function saveFile(name: string, content: object): void {
  const address = URL.createObjectURL(
    new Blob([`${JSON.stringify(content, null, 2)}\n`], { type: 'application/json' }),
  )
  const link = document.createElement('a')
  link.href = address
  link.download = name
  link.click()
  setTimeout(() => URL.revokeObjectURL(address), 10_000)
}
