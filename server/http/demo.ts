/**
 * The demonstration's own routes: its day, and a way in without a PIN. They are there only where the shop is the
 * demonstration's; in a real shop nothing answers at these addresses [DM3].
 */
import { Hono } from 'hono'
import { demoActSchema, demoSignInSchema } from '../../shared/schema'
import { hasLeft } from '../../shared/shop/left'
import { body, type Env, notFound, type Rooms } from './parts'
import { deviceFor, signInReply } from './sign-in'

export function demoRoutes(rooms: Rooms) {
  const { desk, people, demo } = rooms
  const routes = new Hono<Env>()
  if (!demo) return routes
  const deviceOf = deviceFor(rooms)
  return routes
    .get('/demo', (c) => c.json({ ...demo.state(), moments: demo.moments }))
    .post('/demo', async (c) => {
      const input = await body(c, demoActSchema)
      if ('answer' in input) return input.answer
      await demo.act(input.value)
      return c.json(demo.state())
    })
    .post('/demo/sign-in', async (c) => {
      const input = await body(c, demoSignInSchema)
      if ('answer' in input) return input.answer
      const { personId } = input.value
      const shop = await desk.shop()
      const person = Object.hasOwn(shop.people, personId) ? shop.people[personId] : undefined
      if (!person || hasLeft(shop, personId))
        return notFound(c, 'Nobody by that id works here. GET /api/people names who does.')
      return c.json(signInReply(people.signIn(deviceOf(c), personId), person), 201)
    })
}
