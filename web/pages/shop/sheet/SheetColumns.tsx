/** The columns as they were guessed, each with why and with what stands in it; all of it may be said otherwise. */
import { Index } from 'solid-js'
import {
  type Delimiter,
  ROLES,
  type Role,
  type Sheet,
  type SheetChoices,
  type SheetColumn,
} from '../../../../shared/sheet'
import type { TorqueUnit } from '../../../../shared/units'
import { Select } from '../../../ui/Select'
import { DELIMITER_WORDS, ROLE_WORDS, UNITS } from './sheet-words'

interface SheetColumnsProps {
  sheet: Sheet
  choices: SheetChoices
  onChoices(choices: SheetChoices): void
}

const GUESS = 'guess'
const NO_LINE = 'none'
const CHOSEN = 'Chosen.'

export function SheetColumns(props: SheetColumnsProps) {
  const without = (key: keyof SheetChoices) => {
    const { [key]: _, ...rest } = props.choices
    return rest
  }
  const setRole = (index: number, role: string) => {
    const { [index]: _, ...roles } = props.choices.roles ?? {}
    props.onChoices({
      ...props.choices,
      roles: role === GUESS ? roles : { ...roles, [index]: role as Role },
    })
  }
  /** Roles belong to columns: cut elsewhere, they are others. */
  const setDelimiter = (value: string) => {
    const { delimiter: _, roles: __, ...rest } = props.choices
    props.onChoices(value === GUESS ? rest : { ...rest, delimiter: value as Delimiter })
  }
  const setUnit = (value: string) =>
    props.onChoices(value === GUESS ? without('unit') : { ...props.choices, unit: value as TorqueUnit })
  const setHeader = (value: string) =>
    props.onChoices(
      value === GUESS
        ? without('headerLine')
        : { ...props.choices, headerLine: value === NO_LINE ? null : Number(value) },
    )
  const header = () => props.sheet.lines.find(({ kind }) => kind === 'header')?.line
  return (
    <section class="stack roomy" aria-labelledby="columns-title">
      <h3 id="columns-title">What each column is</h3>
      <div class="columns-row">
        <Index each={props.sheet.columns}>
          {(column) => (
            <Select
              label={[`Column ${column().index + 1}`, column().title].filter(Boolean).join(': ')}
              hint={[column().why, column().unit ? `Its bare numbers are ${column().unit}.` : ''].join(' ')}
              value={props.choices.roles?.[column().index] ?? GUESS}
              options={[
                { value: GUESS, title: `as guessed: ${guessed(column())}` },
                ...ROLES.map((role) => ({ value: role, title: ROLE_WORDS[role] })),
              ]}
              onValue={(value) => setRole(column().index, value)}
            />
          )}
        </Index>
        <Select
          label="A number without a unit is in"
          hint="Only where neither its line nor its heading says."
          value={props.choices.unit ?? GUESS}
          options={[
            { value: GUESS, title: 'nothing: ask me' },
            ...UNITS.map((unit) => ({ value: unit, title: unit })),
          ]}
          onValue={setUnit}
        />
        <Select
          label="Columns are separated by"
          value={props.choices.delimiter ?? GUESS}
          options={[
            { value: GUESS, title: `as guessed: ${DELIMITER_WORDS[props.sheet.delimiter]}` },
            ...Object.entries(DELIMITER_WORDS).map(([value, title]) => ({ value, title })),
          ]}
          onValue={setDelimiter}
        />
        <Select
          label="Column headings are in"
          value={props.choices.headerLine === null ? NO_LINE : `${props.choices.headerLine ?? GUESS}`}
          options={[
            { value: GUESS, title: `as guessed: ${header() ? `line ${header()}` : 'no line'}` },
            { value: NO_LINE, title: 'no line' },
            ...props.sheet.lines
              .slice(0, 12)
              .map(({ line }) => ({ value: `${line}`, title: `line ${line}` })),
          ]}
          onValue={setHeader}
        />
      </div>
    </section>
  )
}

/** A column that was chosen no longer tells what it would be by itself. */
const guessed = ({ role, why }: SheetColumn) => (why === CHOSEN ? 'by heading and content' : ROLE_WORDS[role])
