/** One dialog of a page at a time, with what it is about. */
import { createMemo, createRoot } from 'solid-js'
import { expect, test } from 'vitest'
import { createDialogs } from '../../../web/ui/dialogs'

type PageDialog = { dialog: 'raise'; stepIds: string[] } | { dialog: 'promise' }

const page = () =>
  createRoot(() => {
    let close = () => {}
    const dialogs = createDialogs<PageDialog>({
      raise: (props) => {
        close = props.onClose
        return `raise on ${props.stepIds.join(', ')}`
      },
      promise: () => 'promise',
    })
    const outlet = dialogs.Outlet() as unknown as () => unknown
    const flat = (shown: unknown): unknown => (typeof shown === 'function' ? flat(shown()) : shown)
    const shown = createMemo(() => flat(outlet))
    return { dialogs, shown, close: () => close() }
  })

test('none is open at first', () => {
  expect(page().shown()).toBeUndefined()
})

test('the one that was opened last is open, with what it is about', () => {
  const { dialogs, shown } = page()
  dialogs.open({ dialog: 'raise', stepIds: ['10', '20'] })
  expect(shown()).toBe('raise on 10, 20')
  dialogs.open({ dialog: 'promise' })
  expect(shown()).toBe('promise')
  dialogs.close()
  expect(shown()).toBeUndefined()
})

test('a dialog closes itself', () => {
  const { dialogs, shown, close } = page()
  dialogs.open({ dialog: 'raise', stepIds: [] })
  expect(shown()).toBe('raise on ')
  close()
  expect(shown()).toBeUndefined()
})
