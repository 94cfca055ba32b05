/** Fasteners by class, by class: proven, final, flagged, open, as a bar and in words. */
import { For } from 'solid-js'
import { CLASSES } from '../../../shared/plan/kinds'
import { auditLines, countsByClass } from '../../job/record/verdict'
import { useJob } from '../../job/scope'
import { createSame } from '../../ui/same'
import { classBars } from './awaiting-words'

export function CompletenessBars() {
  const scope = useJob()
  const bars = createSame(() => classBars(countsByClass(auditLines(scope.job()))))
  return (
    <section class="audit-list completeness">
      <h2>Fasteners by class</h2>
      <ul>
        <For each={bars()}>
          {(bar) => (
            <li>
              <p>
                <b>Class {bar.class}</b> <span class="pencil">{CLASSES[bar.class]}</span>
              </p>
              <div class="class-bar" aria-hidden="true">
                <span class="bar-proven" style={{ 'flex-grow': bar.proven }} />
                <span class="bar-accepted" style={{ 'flex-grow': bar.accepted }} />
                <span class="bar-final" style={{ 'flex-grow': bar.final }} />
                <span class="bar-flagged" style={{ 'flex-grow': bar.flagged }} />
                <span class="bar-open" style={{ 'flex-grow': bar.open }} />
              </div>
              <p class="class-words">{bar.text}</p>
            </li>
          )}
        </For>
      </ul>
    </section>
  )
}
