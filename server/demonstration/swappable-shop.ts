/**
 * A shop that another can take the place of while it is served: routes and sockets hold this one and always reach the
 * one that is open now. Whoever asked to be told of something is told by the next one too.
 */
import type { Publish } from '../desk'
import type { OpenShop } from '../open-shop'
import type { People } from '../people'

export interface SwappableShop {
  shop: OpenShop
  /** The next one took the place of the one before. */
  swapped(): void
}

export function swappableShop(current: () => OpenShop): SwappableShop {
  const publishers: Publish[] = []
  const peopleListeners: Parameters<People['onChange']>[0][] = []
  const people = lateBound(() => current().people)
  return {
    shop: {
      store: lateBound(() => current().store),
      desk: lateBound(() => current().desk),
      photos: lateBound(() => current().photos),
      marks: lateBound(() => current().marks),
      box: lateBound(() => current().box),
      damage: lateBound(() => current().damage),
      people: new Proxy(people, {
        get: (target, name) =>
          name === 'onChange'
            ? (listener: (typeof peopleListeners)[number]) => {
                peopleListeners.push(listener)
                current().people.onChange(listener)
              }
            : Reflect.get(target, name),
      }),
      access: lateBound(() => current().access),
      intake: (received) => current().intake(received),
      now: () => current().now(),
      monotonic: () => current().monotonic(),
      newId: () => current().newId(),
      subscribe(publish) {
        publishers.push(publish)
        current().subscribe(publish)
      },
      close: () => current().close(),
    },
    swapped() {
      for (const publish of publishers) current().subscribe(publish)
      for (const listener of peopleListeners) current().people.onChange(listener)
    },
  }
}

/** Every member is looked up when it is used, not when it is taken hold of. */
function lateBound<T extends object>(current: () => T): T {
  return new Proxy({} as T, {
    get: (_, name) => {
      const member: unknown = Reflect.get(current(), name)
      if (typeof member !== 'function') return member
      return (...args: unknown[]) => {
        const target: T = current()
        return (Reflect.get(target, name) as (...args: unknown[]) => unknown).apply(target, args)
      }
    },
  })
}
