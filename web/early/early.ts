/**
 * Runs before the pages' own code has come: asks the server what the first page will ask of it, and fetches that page's
 * code, so that none of them waits for another. `live/asked-early.ts` hands the answers over.
 *
 * A script by itself that imports nothing, because whatever it needed would have to come before it.
 */
{
  const [, first = '', id = '', part = 'engine'] = location.pathname.split('/')
  const isOfAJob = first === 'jobs' && id !== ''
  const page = isOfAJob ? part : ({ '': 'board', desk: 'spec-desk' }[first] ?? first)

  // Written by the build: the files of each page.
  const files = JSON.parse(document.getElementById('page-files')?.textContent ?? '{}') as Record<
    string,
    string[]
  >
  for (const file of Object.hasOwn(files, page) ? (files[page] as string[]) : []) {
    const link = document.createElement('link')
    const isStyle = file.endsWith('.css')
    link.rel = isStyle ? 'stylesheet' : 'modulepreload'
    // Nothing is painted before its styles are here; whoever imports the page finds them and asks no more.
    if (isStyle) link.setAttribute('blocking', 'render')
    link.crossOrigin = ''
    link.href = file
    document.head.append(link)
  }

  const asks = ['/api/me', '/api/people']
  if (isOfAJob) asks.push('/api/shop', page === 'record' ? `/api/jobs/${id}/chain` : `/api/jobs/${id}`)
  // Nobody who is signed out is told more than the way to sign-in.
  if (wasSignedIn())
    globalThis.paintmarkEarly = new Map(
      asks.map((path) => {
        const answer = fetch(path)
        // Whoever takes it meets the failure, if anybody does.
        answer.catch(() => undefined)
        return [path, { answer, sentAt: Date.now() }]
      }),
    )

  function wasSignedIn(): boolean {
    try {
      return localStorage.getItem('paintmark-last')?.includes('"signIn":') ?? false
    } catch {
      return false
    }
  }
}
