/** A page of words alone, without scripts: for what is said where the built pages are not. */
import { html } from 'hono/html'

export const wordsPage = (title: string, body: unknown) =>
  html`<!doctype html>
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width" />
        <title>${title}</title>
        <style>
          body { font: 1rem/1.5 system-ui, sans-serif; max-width: 40rem; margin: 2rem auto; padding: 0 1rem; }
        </style>
      </head>
      <body>
        <h1>${title}</h1>
        ${body}
      </body>
    </html>`

/** Whether whoever asks shows pages. */
export const showsPages = (accept: string | undefined): boolean => accept?.includes('text/html') === true
