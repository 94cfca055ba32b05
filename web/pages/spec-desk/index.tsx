/**
 * The spec desk: a fastener's whole truth on one sheet, without a job. Left what is asked, right the answers in the order
 * of their use; every state stands in the address.
 */
import { A, useLocation, useNavigate } from '@solidjs/router'
import { createEffect, createMemo, createSignal, For, on, Show } from 'solid-js'
import { createStore, reconcile } from 'solid-js/store'
import { CAUTIONS } from '../../../shared/fastener'
import { format } from '../../format'
import { usePageTitle } from '../../frame/title'
import { useLive, useShop } from '../../live/live'
import { BasisList } from '../../ui/Basis'
import { Button } from '../../ui/Button'
import { ConvertRow } from './ConvertRow'
import { basisOf, calculate } from './calculation'
import { FastenerRow } from './FastenerRow'
import { CalculatorProvider } from './fields'
import { HoleRow } from './HoleRow'
import { type InputField, inputsFrom, searchOf } from './inputs'
import { OrderRow } from './OrderRow'
import { answerOf } from './part'
import { WrenchRow } from './WrenchRow'
import { summaryOf } from './words'
import './spec-desk.css'
import './spec-desk-print.css'

/** How long “copied” stands. */
const MESSAGE_MS = 4000

export default function SpecDesk() {
  const { clock, session } = useLive()
  const shop = useShop()
  const location = useLocation()
  const navigate = useNavigate()
  const [inputs, setInputs] = createStore(inputsFrom(location.search))
  const [copyMessage, setCopyMessage] = createSignal('')

  // Typing runs ahead of the address: an address on its way that was written here is not read back.
  const written = new Set<string>()
  let latest = location.search
  const set = (field: InputField, value: string) => {
    setInputs(field, value)
    // What stood beside a torque belongs to that torque alone.
    if (field === 'printed') setInputs('beside', '')
    latest = searchOf(inputs)
    written.add(latest)
    navigate(`/desk${latest}`, { replace: true, scroll: false })
  }
  createEffect(
    on(
      () => location.search,
      (search) => {
        if (search === latest) written.clear()
        else if (!written.has(search)) {
          latest = search
          setInputs(reconcile(inputsFrom(search)))
        }
      },
      { defer: true },
    ),
  )

  const openedAt = clock.now()
  const calculation = createMemo(() =>
    calculate(
      { ...inputs },
      {
        wrenches: Object.values(shop.shop().wrenches),
        now: openedAt,
        tolerancePct: shop.shop().tolerances.percent.A,
      },
    ),
  )
  const bases = createMemo(() => basisOf(calculation()))
  const thread = () => answerOf(calculation().thread)
  usePageTitle(() => (thread() ? `${thread()?.designation}, spec desk` : 'Spec desk'))

  const copy = async () => {
    try {
      await navigator.clipboard.writeText(window.location.href)
      setCopyMessage('Copied.')
    } catch {
      setCopyMessage('This browser does not let it be copied: take it from the address line.')
    }
    setTimeout(() => setCopyMessage(''), MESSAGE_MS)
  }

  return (
    <CalculatorProvider value={{ calculation, set, refs: (id) => bases().indexOf(id) + 1 }}>
      <div class="page desk" classList={{ 'desk-bare': calculation().thread.state === 'open' }}>
        <header class="desk-head cluster ends">
          <h1>
            Spec desk
            <Show when={thread()}>{(size) => <span class="desk-name"> {size().designation}</span>}</Show>
          </h1>
          <p class="desk-paper">
            {session.me()?.shop.name}, {format.date(openedAt)}.{' '}
            {session.me()?.shop.invented ? 'A demo shop: its wrenches are invented. ' : ''}
            {window.location.href}
          </p>
          <div class="desk-keys cluster">
            <p role="status" class="pencil">
              {copyMessage()}
            </p>
            <Button variant="quiet" onClick={copy}>
              Copy the link
            </Button>
            <Button variant="quiet" onClick={() => window.print()}>
              Print
            </Button>
            <A class="button quiet" href="/desk">
              Empty sheet
            </A>
          </div>
        </header>
        <p class="unseen" role="status">
          {summaryOf(calculation())}
        </p>
        <FastenerRow />
        <Show when={calculation().thread.state !== 'open'}>
          <HoleRow />
        </Show>
        <Show when={calculation().thread.state !== 'open' || calculation().printed.state !== 'none'}>
          <WrenchRow />
        </Show>
        <Show when={calculation().thread.state !== 'open'}>
          <OrderRow />
        </Show>
        <ConvertRow />
        <footer class="desk-foot stack close">
          <Show when={bases().length > 0}>
            <section class="desk-sources">
              <h2>Formulas and sources</h2>
              <BasisList ids={bases()} numbered />
            </section>
          </Show>
          <For each={[CAUTIONS.maker_governs, CAUTIONS.competent_person]}>
            {(caution) => <p class="strong">{caution}</p>}
          </For>
        </footer>
      </div>
    </CalculatorProvider>
  )
}
