/**
 * How one program of the box asks another: a socket of the system's own that only this account may open.
 *
 * One question a connection: a line of JSON up; down come lines `{ say }` while it works, then one `{ done }` or
 * `{ refused }`. Nothing here is reachable over the network.
 */
import { chmodSync, mkdtempSync, rmdirSync, rmSync } from 'node:fs'
import { connect, createServer, type Socket } from 'node:net'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { createInterface } from 'node:readline'
import { Refused } from '../settings'

export type Question = { do: string } & Record<string, unknown>
/** By what is asked for. What they throw as `Refused` is told; the value they give is the answer. */
export type Answers = Record<string, (question: Question, say: (sentence: string) => void) => Promise<object>>

export interface Questions {
  path: string
  close(): void
}

/** The shortest any system allows is 104 bytes, its end included. */
const PATH_MOST_BYTES = 100
/** What the socket is called in a folder of its own. */
export const ELSEWHERE = 'paintmark-talk'
const QUESTION_MOST_BYTES = 64 * 1024

export async function listenForQuestions(wanted: string, answers: Answers): Promise<Questions> {
  const ownFolder =
    Buffer.byteLength(wanted) > PATH_MOST_BYTES ? mkdtempSync(join(tmpdir(), 'paintmark-')) : undefined
  const path = ownFolder ? join(ownFolder, ELSEWHERE) : wanted
  const server = createServer((socket) => void answer(socket, answers))
  const before = process.umask(0o177)
  try {
    await new Promise<void>((resolve, reject) => {
      server.once('error', reject)
      server.listen(path, resolve)
      // Bound by now: whoever may not ask finds it closed from its first moment.
      process.umask(before)
    })
  } finally {
    process.umask(before)
  }
  chmodSync(path, 0o600)
  server.unref()
  return {
    path,
    close() {
      server.close()
      if (ownFolder) forgetElsewhere(path)
      else rmSync(path, { force: true })
    },
  }
}

/** Its folder only where nothing else is in it. */
export function forgetElsewhere(path: string): void {
  rmSync(path, { force: true })
  try {
    rmdirSync(dirname(path))
  } catch {
    // Gone already, or somebody else's by now.
  }
}

async function answer(socket: Socket, answers: Answers) {
  socket.on('error', () => undefined)
  const tell = (line: object) => {
    if (socket.writable) socket.write(`${JSON.stringify(line)}\n`)
  }
  try {
    const question = JSON.parse(await firstLine(socket)) as Question
    const known = Object.hasOwn(answers, question.do) ? answers[question.do] : undefined
    if (!known)
      throw new Refused(
        `It does not know how to answer "${question.do}". Stop it, start this version, then ask again.`,
      )
    tell({ done: await known(question, (say) => tell({ say })) })
  } catch (error) {
    tell({ refused: error instanceof Error ? error.message : String(error) })
  }
  socket.end()
}

function firstLine(socket: Socket): Promise<string> {
  return new Promise((resolve, reject) => {
    let text = ''
    socket.setEncoding('utf8')
    socket.on('data', (part: string) => {
      text += part
      const end = text.indexOf('\n')
      if (end >= 0) resolve(text.slice(0, end))
      else if (text.length > QUESTION_MOST_BYTES) reject(new Refused('The question is too long.'))
    })
    socket.once('end', () => reject(new Refused('The question ended in the middle.')))
  })
}

export class NobodyThere extends Error {
  override name = 'NobodyThere'
}

/** Asks whoever listens there. Rejects with `NobodyThere` when nobody does, with `Refused` when it says no. */
export async function askHolder(
  path: string,
  question: Question,
  say: (sentence: string) => void = () => undefined,
): Promise<Record<string, unknown>> {
  const socket = connect(path)
  await new Promise<void>((resolve, reject) => {
    socket.once('connect', resolve)
    socket.once('error', () => reject(new NobodyThere(`Nobody answers at ${path}.`)))
  })
  socket.on('error', () => undefined)
  socket.write(`${JSON.stringify(question)}\n`)
  for await (const line of createInterface({ input: socket })) {
    const told = JSON.parse(line) as { say?: string; done?: Record<string, unknown>; refused?: string }
    if (told.say !== undefined) say(told.say)
    if (told.refused !== undefined) throw new Refused(told.refused)
    if (told.done !== undefined) return told.done
  }
  throw new Refused('The server ended before it had answered. Look at its window, then ask again.')
}
