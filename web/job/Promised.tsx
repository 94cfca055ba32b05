/** The date told to the owner, and how many working days are left or over. */
import { Show } from 'solid-js'
import { format } from '../format'
import { useLive } from '../live/live'
import { promiseState } from './promise-words'
import './promised.css'

export function Promised(props: { date: string | undefined; released?: boolean | undefined }) {
  const { clock } = useLive()
  return (
    <Show
      when={props.date}
      fallback={
        <Show when={!props.released}>
          <p class="promised pencil">no date promised</p>
        </Show>
      }
    >
      {(date) => {
        const state = () => promiseState(date(), format.calendar.dayOf(clock.now()))
        return (
          <p class="promised" classList={{ over: state().over && !props.released }}>
            <span class="unseen">Promised for </span>
            <b>{state().day}</b>
            <Show when={!props.released}>
              <span class="promised-left pencil">{state().left}</span>
            </Show>
          </p>
        )
      }}
    </Show>
  )
}
