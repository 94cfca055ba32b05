/**
 * Figures for whoever watches the box, in the text format that Prometheus reads (prometheus.io, "Exposition formats", 0.0.4).
 *
 * For this machine, or with a token: they name nobody, but they tell how busy a shop is. Behind a proxy every call comes
 * from this machine, so there the token is needed. Written here, because a client library brings three packages for these few lines.
 */
import { createHash, timingSafeEqual } from 'node:crypto'
import { monitorEventLoopDelay } from 'node:perf_hooks'
import { Hono } from 'hono'
import { isLoopback } from '../addresses'
import { addressOf, type Ctx, type Env, problem, type Rooms } from './parts'

type Value = number | Iterable<readonly [label: string, number]>

export function metricsRoutes({ web, box, tally, desk, demo }: Rooms) {
  const delay = monitorEventLoopDelay({ resolution: 20 })
  delay.enable()

  function mayRead(c: Ctx): boolean {
    const { metricsToken, behindProxy } = web
    const [scheme, given = ''] = (c.req.header('authorization') ?? '').split(' ')
    if (metricsToken !== undefined && scheme?.toLowerCase() === 'bearer')
      return timingSafeEqual(digest(given), digest(metricsToken))
    return !behindProxy && isLoopback(addressOf(c).replace(/^::ffff:/, ''))
  }

  return new Hono<Env>().get('/metrics', async (c) => {
    if (!mayRead(c))
      return problem(
        c,
        403,
        'not_for_you',
        'These figures are for the server’s own machine, or for whoever sends the header "Authorization: Bearer" with the token that METRICS_TOKEN sets.',
      )
    await demo?.ready()
    const { ok, diskLeftBytes, backup, chain } = await box.health()
    const memory = process.memoryUsage()
    const cpu = process.cpuUsage()
    const lines: string[] = []
    const tell = (name: string, type: 'gauge' | 'counter', help: string, value: Value, label = '') => {
      lines.push(`# HELP ${name} ${help}`, `# TYPE ${name} ${type}`)
      if (typeof value === 'number') lines.push(`${name} ${value}`)
      else for (const [key, number] of value) lines.push(`${name}{${label}="${key}"} ${number}`)
    }
    tell('paintmark_healthy', 'gauge', 'Whether all is well, as /healthz says.', Number(ok))
    tell(
      'paintmark_log_damaged',
      'gauge',
      'Whether a check found the log damaged.',
      Number(chain === 'damaged'),
    )
    tell('paintmark_disk_left_bytes', 'gauge', 'Room on the disk of the data folder.', diskLeftBytes)
    tell('paintmark_backup_failing', 'gauge', 'Whether the last backup failed.', Number(backup.failing))
    if (backup.lastAt !== undefined)
      tell(
        'paintmark_backup_last_timestamp_seconds',
        'gauge',
        'When the last good backup was made.',
        backup.lastAt / 1000,
      )
    tell('paintmark_engines', 'gauge', 'Engines on the board.', desk.summaries().length)
    tell('paintmark_sockets', 'gauge', 'Pages connected now.', tally.sockets)
    tell(
      'paintmark_commands_total',
      'counter',
      'Entries by what they were answered.',
      tally.commands,
      'answer',
    )
    tell('paintmark_http_requests_total', 'counter', 'Requests by status.', tally.requests, 'status')
    tell('paintmark_http_seconds_total', 'counter', 'Time spent on requests.', tally.requestSeconds)
    tell('paintmark_held_back_total', 'counter', 'Messages told to wait, as too many came.', tally.heldBack)
    tell('process_resident_memory_bytes', 'gauge', 'Memory of the process.', memory.rss)
    tell('nodejs_heap_size_used_bytes', 'gauge', 'Heap in use.', memory.heapUsed)
    tell('process_cpu_seconds_total', 'counter', 'CPU time.', (cpu.user + cpu.system) / 1e6)
    tell('process_start_time_seconds', 'gauge', 'When it started.', performance.timeOrigin / 1000)
    tell('nodejs_eventloop_lag_seconds', 'gauge', 'Longest wait since the last look.', delay.max / 1e9)
    delay.reset()
    c.header('Cache-Control', 'no-store')
    return c.body(`${lines.join('\n')}\n`, 200, {
      'Content-Type': 'text/plain; version=0.0.4; charset=utf-8',
    })
  })
}

const digest = (text: string) => createHash('sha256').update(text).digest()
