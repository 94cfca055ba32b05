/** What a draft is called, where its values come from, and its stages with the release each opens. */
import { Index } from 'solid-js'
import { FIELD_WORDS } from '../../../../shared/format/field-words'
import { kindsOf } from '../../../../shared/kinds'
import { RELEASES } from '../../../../shared/plan/kinds'
import type { Plan, Stage } from '../../../../shared/plan/types'
import { Button } from '../../../ui/Button'
import { Field } from '../../../ui/Field'
import { Select } from '../../../ui/Select'
import { newId } from './draft-plan'
import { NumberField } from './NumberField'

const OPENS = [
  { value: '', title: 'opens no release' },
  ...kindsOf(RELEASES).map((value) => ({ value, title: `opens the ${RELEASES[value].word}` })),
]

export function Head(props: { plan: Plan; onPlan(plan: Plan): void }) {
  const put = (patch: Partial<Plan>) => props.onPlan({ ...props.plan, ...patch })
  const putStage = (i: number, stage: Stage) =>
    put({ stages: props.plan.stages.map((other, at) => (at === i ? stage : other)) })
  return (
    <>
      <div class="draft-fields">
        <Field
          label="Title of the plan"
          value={props.plan.title}
          maxLength={160}
          onValue={(title) => put({ title })}
        />
        <Field
          label="Its id in the library"
          value={props.plan.id}
          maxLength={40}
          onValue={(id) => put({ id })}
        />
        <NumberField
          label={FIELD_WORDS.edition}
          whole
          value={props.plan.edition}
          onValue={(edition) => put({ edition })}
        />
        <Field
          label="Family of engines"
          value={props.plan.family}
          maxLength={40}
          onValue={(family) => put({ family })}
        />
        <Field
          label="Source of the values"
          value={props.plan.source}
          hint="Title, edition and page of the maker’s manual."
          maxLength={400}
          onValue={(source) => put({ source })}
        />
      </div>
      <Index each={props.plan.stages}>
        {(stage, i) => (
          <div class="draft-fields">
            <Field
              label={`Stage ${stage().id}`}
              value={stage().title}
              maxLength={80}
              onValue={(title) => putStage(i, { ...stage(), title })}
            />
            <Select
              label={`Its last signature (${stage().id})`}
              value={stage().releases ?? ''}
              options={OPENS}
              onValue={(value) => {
                const { releases: _, ...rest } = stage()
                putStage(i, value ? { ...rest, releases: value as NonNullable<Stage['releases']> } : rest)
              }}
            />
          </div>
        )}
      </Index>
      <Button
        onClick={() => {
          const id = newId(
            'S',
            props.plan.stages.map(({ id }) => id),
          )
          put({ stages: [...props.plan.stages, { id, title: 'New stage' }] })
        }}
      >
        Add a stage
      </Button>
    </>
  )
}
