/** A data folder as it lies under `tests/fixtures`: each of its files compressed, under its own name and `.br`. */
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { brotliCompressSync, brotliDecompressSync, constants } from 'node:zlib'

/** Of the files the store keeps beside its database while it is open, none. */
const PACKED = /^(?:paintmark\.db|pepper|photos\/.+)$/

export function pack(dataFolder: string, into: string): void {
  for (const path of filesIn(dataFolder).filter((one) => PACKED.test(one))) {
    const bytes = readFileSync(join(dataFolder, path))
    const params = { [constants.BROTLI_PARAM_LGWIN]: 24, [constants.BROTLI_PARAM_SIZE_HINT]: bytes.length }
    write(join(into, `${path}.br`), brotliCompressSync(bytes, { params }))
  }
}

export function unpack(from: string, dataFolder: string): void {
  for (const path of filesIn(from).filter((one) => one.endsWith('.br')))
    write(
      join(dataFolder, path.slice(0, -'.br'.length)),
      brotliDecompressSync(readFileSync(join(from, path))),
    )
}

const filesIn = (folder: string): string[] =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) =>
      join(entry.parentPath, entry.name)
        .slice(folder.length + 1)
        .replaceAll('\\', '/'),
    )

function write(file: string, bytes: Uint8Array) {
  mkdirSync(dirname(file), { recursive: true, mode: 0o700 })
  writeFileSync(file, bytes, { mode: 0o600 })
}
