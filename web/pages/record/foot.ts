/** The record's number and page on every sheet of paper: only while the record is open, so no other page prints it. */
import { onCleanup } from 'solid-js'

export function footPages(number: () => string): void {
  const sheet = new CSSStyleSheet()
  const name = number().replace(/[^\w-]/g, '')
  sheet.replaceSync(
    `@page{@bottom-left{content:"Release record ${name}"}@bottom-right{content:"page " counter(page) " of " counter(pages)}}`,
  )
  document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet]
  onCleanup(() => {
    document.adoptedStyleSheets = document.adoptedStyleSheets.filter((other) => other !== sheet)
  })
}
