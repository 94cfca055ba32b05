/**
 * A page of words alone, without scripts: for what is said where the built pages are not. It has their paper and ink by day and
 * night, and not their fonts, which may not be there.
 */
import { html } from 'hono/html'

export const wordsPage = (title: string, body: unknown) =>
  html`<!doctype html>
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width" />
        <title>${title}</title>
        <style>
          :root { color-scheme: light dark; --paper: #f3efe4; --ink: #1b1a16; }
          @media (prefers-color-scheme: dark) { :root { --paper: #15171a; --ink: #ece5d3; } }
          body { max-width: 44rem; margin: 0; padding: 1.5rem; background: var(--paper); color: var(--ink); font: 1.125rem/1.5 sans-serif; }
          h1 { margin: 0 0 1rem; padding-bottom: 0.5rem; border-bottom: 3px solid; font-size: 1.75rem; line-height: 1.15; }
          a { color: inherit; font-weight: 600; text-underline-offset: 0.2em; }
          a:focus-visible { outline: 3px solid; outline-offset: 3px; }
          code { overflow-wrap: anywhere; }
        </style>
      </head>
      <body>
        <h1>${title}</h1>
        ${body}
      </body>
    </html>`

/** Whether whoever asks shows pages. */
export const showsPages = (accept: string | undefined): boolean => accept?.includes('text/html') === true
