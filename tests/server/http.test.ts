/** HTTP at its edges, WI1 to WI5; the promises stand in `server/http/app.ts`. */
import { createHash } from 'node:crypto'
import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { brotliDecompressSync } from 'node:zlib'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { portDrawing } from '../../seed/pictures'
import { walkChain } from '../../shared/chain'
import { PROTOCOL_VERSION } from '../../shared/protocol'
import { hashText } from '../../web/live/hash'
import { plan, step } from '../shop/plan'
import { PLAN } from '../shop/yard'
import { browser, CODE, command, type House, makeHouse, ORIGIN, PINS } from './house'

let house: House
let ana: ReturnType<typeof browser>
let bo: ReturnType<typeof browser>

beforeAll(async () => {
  house = await makeHouse()
  ana = browser(house.app)
  bo = browser(house.app)
  await ana.signIn('ana')
  await bo.signIn('bo')
})
afterAll(() => house.close())

/** Released to its owner as soon as its one step is signed. */
const ONE_STEP = plan({
  id: 'one-step',
  stages: [{ id: 'A', title: 'All of it', releases: 'to_owner' }],
  steps: [step('S1')],
})

const sha256 = (bytes: Buffer) => createHash('sha256').update(bytes).digest('hex')

const claim = (stepId: string) => command({ type: 'ClaimStep', stepId })

describe('commands', () => {
  test('[WI5] 201 with version and events; nothing to do is 201 with none', async () => {
    const first = await ana.post('/api/jobs/j1/commands', claim('S1'))
    expect(first.status).toBe(201)
    expect(first.json).toMatchObject({
      version: 3,
      events: [{ version: 3, event: { type: 'StepClaimed', by: 'ana' } }],
    })
    const again = await ana.post('/api/jobs/j1/commands', claim('S1'))
    expect([again.status, again.json]).toEqual([201, { version: 3, events: [] }])
  })

  test('[WI5] a refusal is 409 with code, data and sentence', async () => {
    const refused = await bo.post('/api/jobs/j1/commands', claim('S1'))
    expect(refused.status).toBe(409)
    expect(refused.json).toMatchObject({
      code: 'already_claimed',
      data: { by: 'ana' },
      sentence: expect.stringMatching(/^Ana claimed S1/),
    })
  })

  test('[WI5] a refusal about the person is 403, on both streams', async () => {
    const adopt = await bo.post(
      '/api/jobs/j1/commands',
      command({ type: 'AdoptPlan', planId: 'other', edition: 1 }),
    )
    expect([adopt.status, adopt.json.code]).toEqual([403, 'role_needed'])
    const add = await bo.post(
      '/api/shop/commands',
      command({ type: 'SetTolerances', tolerances: { percent: { A: 4, B: 4, C: 4 }, angleDeg: 4 } }),
    )
    expect([add.status, add.json.code]).toEqual([403, 'shop_role_needed'])
  })

  test('[WI5] nobody signed in is 401; an unknown sign-in is 403', async () => {
    const nobody = await browser(house.app).post('/api/jobs/j1/commands', claim('S2'))
    expect([nobody.status, nobody.json.code]).toEqual([401, 'signed_out'])
    const other = await bo.post('/api/jobs/j1/commands', { ...claim('S2'), signInId: house.shop.newId() })
    expect([other.status, other.json.code]).toEqual([403, 'not_this_device'])
  })

  test('[WI1] the sentence names the field as the screens do, and never a path', async () => {
    const said = async (body: object) => {
      const { json } = await ana.post('/api/jobs/j1/commands', command(body))
      expect(json.code).toBe('bad_message')
      expect(json.sentence).not.toMatch(/[a-z]\/[a-z]|schema|JSON|undefined/i)
      return json.sentence
    }
    const reading = { type: 'TakeReading', jointId: 'J1', position: 1, pass: 1, how: 'indicated' }
    expect(await said({ ...reading, value: 1e9 })).toBe(
      '“Number entered” must be at most 1000000. Enter it again.',
    )
    const settled = {
      type: 'SettleValue',
      jointId: 'J1',
      pass: 1,
      torqueNm: 20,
      minNm: 0,
      maxNm: 22,
      basis: { kind: 'word', competence: 'the maker’s own engineer' },
      reason: 'as told',
    }
    expect(await said(settled)).toBe('“Lowest, N·m” must be above 0. Enter it again.')
    expect(await said({ ...settled, minNm: 18, maxNm: 'much' })).toBe(
      '“Highest, N·m” must be a number. Enter it again.',
    )
    expect(await said({ ...settled, minNm: 18, reason: ' ' })).toBe('“Reason” is empty. Enter it again.')
    expect(await said({ ...settled, minNm: 18, reason: undefined })).toBe(
      '“Reason” is missing. Enter it again.',
    )
    expect(await said({ type: 'Nothing' })).toBe(
      'The server did not understand this entry. Reload the page and make it again.',
    )
  })

  test('[WI1] what is wrong is 400 and names the path', async () => {
    const at = async (body: unknown) => {
      const { status, json } = await ana.post('/api/jobs/j1/commands', body)
      expect([status, json.code, typeof json.sentence]).toEqual([400, 'bad_message', 'string'])
      return json.path
    }
    const scale = { type: 'EnterScale', jointId: 'J1', pass: 1, wrenchId: 'W1', value: 20 }
    expect(await at(command({ ...scale, pass: 'one' }))).toBe('/pass')
    expect(await at(command({ ...scale, adapter: { wrenchMm: 300, adapterMm: 30, angleDeg: 400 } }))).toBe(
      '/adapter/angleDeg',
    )
    expect(await at(command({ ...scale, by: 'bo' }))).toBe('/by')
    expect(await at(command({ type: 'DropEverything' }))).toBe('/type')
    expect(await at({ ...scale, commandId: 'mine' })).toBe('/commandId')
    expect(await at(command({ type: 'StrikeReading', readingId: 'x', reason: 'half a \ud83d pair' }))).toBe(
      '/reason',
    )
    for (const nothing of ['', '{', 'null', '[]', '7', '"ClaimStep"', '{"type":"ClaimStep",}'])
      await at(nothing)
  })

  test('[WI4] a body over 64 kB is 413, at the shop over 4 MB, also without its length told', async () => {
    const long = JSON.stringify({ type: 'ClaimStep', stepId: 'x'.repeat(65 * 1024) })
    expect((await ana.post('/api/jobs/j1/commands', long)).status).toBe(413)
    expect((await ana.post('/api/shop/commands', long)).status).toBe(400)
    const longer = JSON.stringify({ type: 'AddPlan', plan: 'x'.repeat(4 * 1024 * 1024) })
    const answer = await ana.post('/api/shop/commands', longer)
    expect([answer.status, answer.json.code]).toEqual([413, 'too_long'])
    const streamed = await house.app.request(`${ORIGIN}/api/jobs/j1/commands`, {
      method: 'POST',
      headers: { cookie: ana.jar.cookie },
      body: new ReadableStream({
        start(controller) {
          for (let n = 0; n < 70; n++) controller.enqueue(new TextEncoder().encode('x'.repeat(1024)))
          controller.close()
        },
      }),
      duplex: 'half',
    } as RequestInit)
    expect(streamed.status).toBe(413)
  })
})

describe('whose page may call', () => {
  test('[WI3] another origin is 403 and changes nothing; none at all is a script and may', async () => {
    const before = (await ana.get('/api/jobs/j1')).json.version
    for (const headers of [
      { origin: 'https://elsewhere.example' },
      { origin: 'http://127.0.0.1:9999' },
      { origin: 'null' },
    ] as Record<string, string>[]) {
      const answer = await ana.post('/api/jobs/j1/commands', claim('S2'), headers)
      expect([answer.status, answer.json.code]).toEqual([403, 'wrong_origin'])
    }
    expect((await ana.get('/api/jobs/j1')).json.version).toBe(before)
    const script = await house.app.request(`${ORIGIN}/api/jobs/j1/commands`, {
      method: 'POST',
      headers: { cookie: ana.jar.cookie },
      body: JSON.stringify(claim('S1')),
    })
    expect(script.status).toBe(201)
    const hidden = await house.app.request(`${ORIGIN}/api/sign-out`, {
      method: 'POST',
      headers: { 'sec-fetch-site': 'cross-site' },
    })
    expect(hidden.status).toBe(403)
  })

  test('[WI3] on loopback another name for this machine is not served', async () => {
    const answer = await house.app.request('http://evil.example:4747/api/people')
    expect(answer.status).toBe(403)
    expect((await house.app.request('http://localhost:4747/api/people')).status).toBe(200)
  })
})

describe('reading', () => {
  test('before sign-in only names, initials and paint; me says who and when', async () => {
    const nobody = browser(house.app)
    expect((await nobody.get('/api/people')).json[0]).toEqual({
      id: 'ana',
      name: 'Ana',
      initials: 'AN',
      paint: 'blue',
    })
    expect((await ana.get('/api/people')).json[0].roles).toEqual(['supervisor', 'owner'])
    expect((await nobody.get('/api/me')).json).toEqual({
      shop: { name: 'Test Yard', opened: true, invented: true, key: expect.stringMatching(/^[0-9a-f]{16}$/) },
      now: expect.any(Number),
      protocol: PROTOCOL_VERSION,
      epoch: { id: expect.any(String), number: 1, coveredSeq: 0 },
    })
    expect((await ana.get('/api/me')).json.signIn.person.id).toBe('ana')
    for (const path of [
      '/api/board',
      '/api/jobs/j1',
      '/api/jobs/j1/trail',
      '/api/jobs/j1/events',
      '/api/shop',
      '/api/plans/small/1',
    ])
      expect([path, (await nobody.get(path)).status]).toEqual([path, 401])
  })

  test('a job comes with its version as ETag, and 304 while nothing changed', async () => {
    const first = await ana.get('/api/jobs/j1')
    const tag = first.headers.get('etag') ?? ''
    expect(tag).toContain(`"${first.json.version}"`)
    const same = await ana.get('/api/jobs/j1', { 'if-none-match': tag })
    expect([same.status, same.text]).toEqual([304, ''])
    await ana.post('/api/jobs/j1/commands', claim('S2'))
    expect((await ana.get('/api/jobs/j1', { 'if-none-match': tag })).status).toBe(200)
  })

  test('[WI1] what is not there is 404, with a sentence', async () => {
    for (const path of [
      '/api/jobs/none',
      '/api/jobs/none/trail',
      '/api/plans/small/9',
      '/api/plans/constructor/1',
      '/api/no-such-thing',
      '/assets/none.js',
    ]) {
      const { status, json } = await ana.get(path)
      expect([path, status, json?.code, typeof json?.sentence]).toEqual([path, 404, 'not_found', 'string'])
    }
    expect((await ana.get('/api/jobs/j1/events?after=x')).status).toBe(400)
  })

  test('[DK14] an engine that left is looked up by its number or by when it was finished, by whoever is signed in', async () => {
    await ana.post('/api/shop/commands', command({ type: 'AddPlan', plan: ONE_STEP }))
    const opening = { type: 'OpenJob', number: 'E 9/ü', engine: { model: 'Small', serial: '9' } }
    const sent = [
      { ...opening, owner: 'Mrs Rook', agreed: 'All' },
      { type: 'AdoptPlan', planId: ONE_STEP.id, edition: 1 },
      { type: 'ClaimStep', stepId: 'S1' },
      { type: 'SignStep', stepId: 'S1' },
      { type: 'Release', kind: 'to_owner' },
    ]
    for (const one of sent) {
      const { status, text } = await ana.post('/api/jobs/j9/commands', command(one))
      expect([status, text]).toEqual([201, expect.any(String)])
    }
    const found = async (query: string) => {
      const { status, json } = await bo.get(`/api/finished?${query}`)
      expect(status).toBe(200)
      return json.jobs
    }
    const byNumber = (number: string) => found(`number=${encodeURIComponent(number)}`)
    const [job, ...more] = await byNumber('E 9/ü')
    expect(more).toEqual([])
    const { finishedAt, release, ...rest } = job
    expect(rest).toEqual({ id: 'j9', number: 'E 9/ü', engine: 'Small', serial: '9', owner: 'Mrs Rook' })
    expect(release).toBe((await ana.get('/api/jobs/j9')).json.releases[0].number)
    // As somebody types it in a hurry.
    expect(await byNumber('e9 Ü')).toEqual([job])
    // In the shop still, or known to nobody.
    expect(await byNumber('E-1')).toEqual([])
    expect(await byNumber('E-404')).toEqual([])
    expect(await found(`from=${finishedAt}&until=${finishedAt + 1}`)).toEqual([job])
    expect(await found(`from=${finishedAt - 1}&until=${finishedAt}`)).toEqual([])

    for (const query of [
      '',
      'from=1',
      'until=1',
      'from=2&until=2',
      'from=3&until=2',
      'from=x&until=2',
      'from=1.5&until=2',
    ]) {
      const { status, json } = await bo.get(`/api/finished?${query}`)
      expect([query, status, json.code, json.path]).toEqual([query, 400, 'bad_message', '/from'])
    }
    expect((await browser(house.app).get('/api/finished?number=E-9')).status).toBe(401)
  })

  test('whoever asks for an engine by the number painted on it is led to it, where that is one engine', async () => {
    for (const number of ['E-1', 'e1', '1']) {
      const { status, headers } = await ana.get(`/api/jobs/${number}`)
      expect([number, status, headers.get('location')]).toEqual([number, 302, '/api/jobs/j1'])
    }
    expect((await ana.get('/api/jobs/E-404')).status).toBe(404)
    expect((await browser(house.app).get('/api/jobs/E-1')).status).toBe(401)
    // The same digits on two engines: nobody is led to the wrong one.
    await ana.post(
      '/api/jobs/j10/commands',
      command({
        type: 'OpenJob',
        number: 'F-1',
        engine: { model: 'Small', serial: '10' },
        owner: 'Mrs Rook',
        agreed: 'All',
      }),
    )
    expect((await ana.get('/api/jobs/1')).status).toBe(404)
    expect((await ana.get('/api/jobs/f1')).headers.get('location')).toBe('/api/jobs/j10')
    expect((await ana.get('/api/next-number')).json).toEqual({ number: 'E-2' })
  })

  test('the trail is a sentence an event; events after a version are those', async () => {
    const { lines } = (await ana.get('/api/jobs/j1/trail')).json
    expect(lines[0].sentence).toBe('Ana opened job E-1: Small, serial 1, for Somebody. Agreed: All.')
    expect(lines[2].sentence).toBe('Ana claimed S1 Step S1.')
    const { from, events } = (await ana.get('/api/jobs/j1/events?after=2')).json
    expect([from, events[0].version, events.length]).toEqual([2, 3, lines.length - 2])
  })

  test('[ES13] the stored chain, hashed anew by who asked, comes to the head of the log', async () => {
    const all = (await ana.get('/api/jobs/j1/chain')).json
    const head = all.rows.at(-1).hash
    expect(await walkChain(all, all.rows.length, head, hashText)).toMatchObject({ whole: true, head })
    const [ended] = (await house.shop.store.streams()).filter(({ stream }) => stream === 'job:j1')
    expect([ended?.version, ended?.hash]).toEqual([all.rows.length, head])
    const two = (await ana.get('/api/jobs/j1/chain?upTo=2')).json
    expect(two.rows).toEqual(all.rows.slice(0, 2))
    expect((await ana.get('/api/jobs/none/chain')).status).toBe(404)
    expect((await ana.get('/api/jobs/j1/chain?upTo=0')).json.path).toBe('/upTo')
    expect((await browser(house.app).get('/api/jobs/j1/chain')).status).toBe(401)
  })

  test('a shop is named by its own log, signed in or not, and another shop otherwise', async () => {
    const keyOf = async (asker: ReturnType<typeof browser>) => (await asker.get('/api/me')).json.shop.key
    const key = await keyOf(ana)
    expect(key).toMatch(/^[0-9a-f]{16}$/)
    expect(await keyOf(browser(house.app))).toBe(key)
    const other = await makeHouse()
    const unopened = await makeHouse({ open: false })
    try {
      expect(await keyOf(browser(other.app))).not.toBe(key)
      expect(await keyOf(browser(unopened.app))).toBeUndefined()
    } finally {
      await other.close()
      await unopened.close()
    }
  })

  test('the shop travels without the bodies of its plans, unless asked', async () => {
    expect((await ana.get('/api/shop')).json.plans.small[1].steps).toEqual([])
    expect((await ana.get('/api/shop?plans=full')).json.plans.small[1].steps).toHaveLength(2)
    expect((await ana.get('/api/plans/small/1')).json.steps).toHaveLength(2)
  })

  test('a plan file is read before it is added: counts, or its faults', async () => {
    const good = await ana.post('/api/plans/read', PLAN)
    expect([good.status, good.json.counts.fasteners]).toEqual([200, 6])
    const bad = await ana.post('/api/plans/read', { ...PLAN, steps: [{ ...PLAN.steps[0], needs: ['S9'] }] })
    expect([bad.status, bad.json.code]).toEqual([400, 'plan_has_faults'])
    expect(bad.json.faults[0]).toMatchObject({
      path: expect.any(String),
      problem: expect.any(String),
      fix: expect.any(String),
    })
    expect((await ana.post('/api/plans/read', '{"format":')).json.faults[0].path).toMatch(/^line 1/)
  })

  test('[PC6] [PC7] a plan file is read with what the shop has: its crib, and the photos on its shelf', async () => {
    const withPass = (more: object) => {
      const plan = structuredClone(PLAN)
      Object.assign(plan.steps[0]?.joints[0]?.passes[0] ?? {}, more)
      return plan
    }
    const unfit = await ana.post('/api/plans/read', withPass({ torqueNm: 3 }))
    expect(unfit.json.cautions).toContainEqual(
      expect.objectContaining({ problem: expect.stringContaining('W1 cannot do 3 N·m') }),
    )
    const asPrinted = { torqueNm: 900, photo: 'a'.repeat(64), reason: 'confirmed by letter' }
    const bare = await ana.post('/api/plans/read', withPass({ torqueNm: 900, asPrinted }))
    expect(bare.json.faults).toEqual([
      expect.objectContaining({ problem: expect.stringContaining('is not on this server'), asPrinted: true }),
    ])

    const png = portDrawing({ id: 'page' }).bytes
    const add = () =>
      ana.post(
        '/api/shop/commands',
        command({
          type: 'AddPlan',
          plan: {
            ...withPass({ torqueNm: 900, asPrinted: { ...asPrinted, photo: sha256(png) } }),
            edition: 9,
          },
        }),
      )
    const refused = await add()
    expect([refused.status, refused.json.code]).toEqual([409, 'plan_has_faults'])
    expect(refused.json.sentence).toMatch(
      /J1: 900 N·m is taken as printed, but the photo of its page is not on this server\. Take it as printed again, with the photo\.$/,
    )
    await house.shop.photos.put(sha256(png), png)
    expect((await add()).status).toBe(201)
  })

  test('the schema names every command and event of both streams', async () => {
    const { json } = await browser(house.app).get('/api/schema')
    expect(Object.keys(json.job.commands)).toContain('TakeReading')
    expect(Object.keys(json.job.events)).toContain('SignaturesLapsed')
    expect(Object.keys(json.shop.commands)).toContain('AddPlan')
    expect(json.shop.events.PersonAdded.properties.person.required).toContain('initials')
    expect(json.plan.properties.steps.type).toBe('array')
  })

  test('JSON over a kilobyte is compressed where the browser takes it', async () => {
    const plain = await ana.get('/api/jobs/j1', { 'accept-encoding': 'identity' })
    expect(plain.headers.get('content-encoding')).toBeNull()
    const raw = await house.app.request(`${ORIGIN}/api/jobs/j1`, {
      headers: { cookie: ana.jar.cookie, 'accept-encoding': 'gzip, br' },
    })
    expect(raw.headers.get('content-encoding')).toBe('br')
    expect(JSON.parse(brotliDecompressSync(Buffer.from(await raw.arrayBuffer())).toString())).toEqual(
      plain.json,
    )
    const refused = await house.app.request(`${ORIGIN}/api/jobs/j1`, {
      headers: { cookie: ana.jar.cookie, 'accept-encoding': 'br;q=0, gzip' },
    })
    expect(refused.headers.get('content-encoding')).toBe('gzip')
  })
})

describe('pages and headers', () => {
  test('[WI2] every answer forbids foreign scripts and frames', async () => {
    const { headers } = await ana.get('/healthz')
    const policy = headers.get('content-security-policy') ?? ''
    expect(policy).toContain("default-src 'self'")
    expect(policy).toContain("frame-ancestors 'none'")
    expect(policy).not.toMatch(/script-src|unsafe-eval/)
    expect(headers.get('x-content-type-options')).toBe('nosniff')
    expect(headers.get('referrer-policy')).toBe('no-referrer')
  })

  test('files with a hash in their name may be kept; pages are asked for again; nothing else is given out', async () => {
    const folder = house.rooms.web.folder
    expect((await ana.get('/')).status).toBe(503)
    mkdirSync(join(folder, 'assets'), { recursive: true })
    writeFileSync(join(folder, 'index.html'), '<!doctype html><title>Paintmark</title>')
    writeFileSync(join(folder, 'assets', 'a-1234.js'), 'console.log(1)')
    writeFileSync(join(folder, '.hidden'), 'no')
    for (const path of ['/', '/jobs/e-101/bench', '/jobs/e-101/record/E-1.5', '/shop/people', '/wall/']) {
      const page = await ana.get(path)
      expect([page.status, page.headers.get('cache-control')]).toEqual([200, 'no-cache'])
    }
    expect((await ana.get('/assets/a-1234.js')).headers.get('cache-control')).toContain('immutable')
    for (const path of [
      '/.hidden',
      '/..%2fpaintmark.db',
      '/%2e%2e/pepper',
      '/assets/..%2f..%2fpepper',
      '/%E0%A4%A',
    ])
      expect((await ana.get(path)).text).not.toMatch(/SQLite|^no$/)
    expect((await ana.get('/..%2fpaintmark.db')).status).toBe(404)
  })

  test('[WI12] at an address of no page there is none: a sentence, and for a browser a page that says so', async () => {
    const addresses = [
      '/board',
      '/metric',
      '/jobs',
      '/jobs/e-101/no',
      '/index.php',
      '/%',
      '/wp-admin/',
      '/jobs/',
    ]
    for (const path of addresses) {
      const { status, json } = await ana.get(path)
      expect([path, status, json?.code]).toEqual([path, 404, 'not_found'])
      const page = await ana.get(path, { accept: 'text/html,*/*;q=0.8' })
      expect([path, page.status, page.headers.get('content-type')]).toEqual([
        path,
        404,
        'text/html; charset=UTF-8',
      ])
      expect(page.text).toMatch(/<h1>No page has this address<\/h1>[\s\S]*href="\/"/)
    }
    expect((await ana.get('/api/none', { accept: 'text/html' })).json?.code).toBe('not_found')
  })

  test('opening the shop: once, with the founder signed in', async () => {
    const empty = await makeHouse({ open: false })
    try {
      const first = browser(empty.app)
      const body = { shopName: 'Yard', name: 'Ana', initials: 'AN', pin: '12', code: CODE }
      expect((await first.post('/api/first-run', body)).json.path).toBe('/pin')
      expect((await first.get('/api/me')).json.shop.opened).toBe(false)
      const wrong = await first.post('/api/first-run', { ...body, pin: '4711', code: '1234 5679' })
      expect([wrong.status, wrong.json.code]).toEqual([403, 'wrong_code'])
      expect((await first.get('/api/me')).json.shop.opened).toBe(false)
      expect((await first.post('/api/first-run', { ...body, pin: '4711' })).status).toBe(201)
      expect((await first.get('/api/me')).json.signIn.person.name).toBe('Ana')
      // Nobody is left without a PIN: it came with the shop.
      const again = browser(empty.app)
      const { id } = (await again.get('/api/people')).json[0]
      expect((await again.post('/api/sign-in', { personId: id, pin: '4711' })).status).toBe(201)
      const second = await browser(empty.app).post('/api/first-run', { ...body, pin: '7063' })
      expect([second.status, second.json.code]).toEqual([409, 'shop_already_open'])
    } finally {
      await empty.close()
    }
  })

  test('[PE8] wrong codes make the next try wait, right or wrong', async () => {
    const empty = await makeHouse({ open: false })
    try {
      const page = browser(empty.app)
      const body = { shopName: 'Yard', name: 'Ana', initials: 'AN', pin: '4711' }
      const tries = await Promise.all(
        ['1', '22222222', '', CODE.replace('1', '2')].map((code) =>
          page.post('/api/first-run', { ...body, code }),
        ),
      )
      expect(tries.map(({ status }) => status)).toEqual([403, 403, 403, 429])
      const right = await page.post('/api/first-run', { ...body, code: CODE })
      expect([right.status, right.json.sentence]).toEqual([
        429,
        expect.stringMatching(/^Too many wrong codes\. Wait \d+ s/),
      ])
      expect((await page.get('/api/me')).json.shop.opened).toBe(false)
    } finally {
      await empty.close()
    }
  })

  test('PINs are set by their owner or a leader', async () => {
    expect((await bo.post('/api/people/ana/pin', { pin: PINS.ana })).status).toBe(403)
    expect((await bo.post('/api/people/bo/pin', { pin: PINS.bo, before: PINS.bo })).status).toBe(200)
    expect((await ana.post('/api/people/bo/pin', { pin: PINS.bo })).status).toBe(200)
    expect((await ana.post('/api/people/nobody/pin', { pin: '4711' })).status).toBe(404)
    expect((await ana.post('/api/people/bo/pin', { pin: 'abcd' })).json.path).toBe('/pin')
  })
})
