/** A button 56 px high or more. `because` says why it cannot be pressed: it stays reachable and tells. */
import { type JSX, splitProps } from 'solid-js'

interface ButtonProps extends JSX.ButtonHTMLAttributes<HTMLButtonElement> {
  /** `main`: the one thing to do here. `quiet`: aside. `rust`: takes something back. */
  variant?: 'main' | 'quiet' | 'rust'
  wide?: boolean
}

export function Button(props: ButtonProps) {
  const [own, rest] = splitProps(props, ['variant', 'wide', 'class', 'type'])
  return (
    <button
      type={own.type ?? 'button'}
      class={['button', own.variant, own.wide && 'wide', own.class].filter(Boolean).join(' ')}
      // A key held down is one press: the next bolt's button stands where this one's was.
      onKeyDown={(event) => {
        if (event.repeat) event.preventDefault()
      }}
      {...rest}
    />
  )
}
