/** Has the build name in `index.html` the script that runs first, and for it the files of each page. */
import type { Plugin, Rolldown } from 'vite'

export const EARLY = 'early'

type Built = Rolldown.OutputChunk | Rolldown.OutputAsset

export const earlyFiles = (): Plugin => ({
  name: 'paintmark-early',
  transformIndexHtml: {
    order: 'post',
    handler(_, { bundle = {}, chunk: start }) {
      const chunks = Object.values<Built>(bundle).filter((built) => built.type === 'chunk')
      const early = chunks.find(({ name, isEntry }) => isEntry && name === EARLY)
      if (!early || !start) throw new Error('The script that runs first was not built.')
      const byFile = new Map(chunks.map((chunk) => [chunk.fileName, chunk]))

      /** It and all that it imports before it runs. */
      function withImports(file: string): Set<string> {
        const found = new Set([file])
        for (const each of found) for (const next of byFile.get(each)?.imports ?? []) found.add(next)
        return found
      }
      const known = withImports(start.fileName)
      const pages = chunks.flatMap(({ facadeModuleId, fileName }): [string, string[]][] => {
        const [, page] = /\/pages\/([^/]+)\/index\.tsx$/.exec(facadeModuleId ?? '') ?? []
        if (page === undefined) return []
        const own = [...withImports(fileName)].filter((file) => !known.has(file))
        const styles = own.flatMap((file) => [...(byFile.get(file)?.viteMetadata?.importedCss ?? [])])
        return [[page, [...own, ...styles].map((file) => `/${file}`)]]
      })
      return [
        {
          tag: 'script',
          attrs: { id: 'page-files', type: 'application/json' },
          children: JSON.stringify(Object.fromEntries(pages)),
          injectTo: 'head-prepend',
        },
        { tag: 'script', attrs: { src: `/${early.fileName}`, async: true }, injectTo: 'head-prepend' },
      ]
    },
  },
})
