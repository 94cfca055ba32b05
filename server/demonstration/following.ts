/**
 * A shop that another can take the place of while it is served: routes and sockets hold this one and always reach the
 * one that is open now. Whoever asked to be told of something is told by the next one too.
 */
import type { Publish } from '../desk'
import type { OpenShop } from '../open-shop'
import type { People } from '../people'

export interface Following {
  shop: OpenShop
  /** The next one took the place of the one before. */
  moved(): void
}

export function following(current: () => OpenShop): Following {
  const toTell: Publish[] = []
  const onChange: Parameters<People['onChange']>[0][] = []
  const people = through(() => current().people)
  return {
    shop: {
      store: through(() => current().store),
      desk: through(() => current().desk),
      photos: through(() => current().photos),
      people: new Proxy(people, {
        get: (target, name) =>
          name === 'onChange'
            ? (told: (typeof onChange)[number]) => {
                onChange.push(told)
                current().people.onChange(told)
              }
            : Reflect.get(target, name),
      }),
      intake: (received) => current().intake(received),
      now: () => current().now(),
      newId: () => current().newId(),
      tell(publish) {
        toTell.push(publish)
        current().tell(publish)
      },
      close: () => current().close(),
    },
    moved() {
      for (const publish of toTell) current().tell(publish)
      for (const told of onChange) current().people.onChange(told)
    },
  }
}

/** Every member is looked up when it is used, not when it is taken hold of. */
function through<T extends object>(current: () => T): T {
  return new Proxy({} as T, {
    get: (_, name) => {
      const member: unknown = Reflect.get(current(), name)
      if (typeof member !== 'function') return member
      return (...given: unknown[]) => {
        const now: T = current()
        return (Reflect.get(now, name) as (...given: unknown[]) => unknown).apply(now, given)
      }
    },
  })
}
