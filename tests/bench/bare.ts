/**
 * The reference for memory: a process that is nothing but socket.io and SQLite. Reads from stdin what one
 * reading's rows and its summary are, says its address on stdout, and ends when stdin ends.
 */
import { serveBare } from './host/bare-socket'

let given = ''
process.stdin.setEncoding('utf8')
process.stdin.on('data', (part) => {
  given += part
  const end = given.indexOf('\n')
  if (end < 0) return
  const { file, rows, summary } = JSON.parse(given.slice(0, end))
  given = ''
  void serveBare(file, rows, summary).then(({ origin }) => process.stdout.write(`Bare runs at ${origin}\n`))
})
process.stdin.on('end', () => process.exit(0))
