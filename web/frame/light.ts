/** Day or night: the device's own choice until somebody presses the switch; then that, kept on this device. */
import { createEffect, createSignal } from 'solid-js'
import { recall, remember } from '../ui/device'

export type Light = 'day' | 'night'

const KEY = 'paintmark.light'

function stored(): Light | undefined {
  const value = recall(KEY)
  return value === 'day' || value === 'night' ? value : undefined
}

export function makeLight() {
  const dark = matchMedia('(prefers-color-scheme: dark)')
  const device = (): Light => (dark.matches ? 'night' : 'day')
  const [light, setLight] = createSignal<Light>(stored() ?? device())
  dark.addEventListener('change', () => {
    if (!stored()) setLight(device())
  })
  createEffect(() => {
    document.documentElement.dataset.light = light()
    // With the frame that reckons the styles anyway.
    requestAnimationFrame(() => {
      const paper = getComputedStyle(document.documentElement).getPropertyValue('--paper').trim()
      document.querySelector('meta[name="theme-color"]')?.setAttribute('content', paper)
    })
  })
  return {
    light,
    turn() {
      const next: Light = light() === 'day' ? 'night' : 'day'
      setLight(next)
      remember(KEY, next)
    },
  }
}
