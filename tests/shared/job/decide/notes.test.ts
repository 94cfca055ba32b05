/** Notes, promised dates and photos: said at any time, and kept. */
import { describe, expect, test } from 'vitest'
import { arrived, note, open, photo, promise, raise } from '../../../shop/acts'
import { floor, fresh } from '../../../shop/given'

describe('notes and promises', () => {
  test('[NO1] [NO2] a note, of the engine or of a step of it', () => {
    floor()
      .when(note('rust', { stepId: 'none' }))
      .refuses('step_not_found')
    floor()
      .when(note('rust', { stepId: 'pump', by: 'wim' }))
      .gives({ type: 'NoteAdded', text: 'rust' })
    expect(floor(note('one'), note('one')).job.notes).toHaveLength(2)
  })
  test('[NO2] [FW6] before there is a plan too', () => {
    fresh(open()).when(note('no oil')).gives({ type: 'NoteAdded' })
    fresh(open())
      .when(note('x', { stepId: 'pump' }))
      .refuses('step_not_found')
    fresh(open()).when(photo('p')).gives({ type: 'PhotoAdded' })
    fresh(open(), photo('p')).when(arrived('p')).gives({ type: 'PhotoArrived' })
    fresh(open()).when(promise('2030-02-01')).gives({ type: 'DatePromised' })
    fresh(open())
      .when(raise(['pump']))
      .refuses('no_plan')
    fresh().when(note('x')).refuses('job_not_open')
  })
  test('[PR1] [PR2] [PR3] a date, by the office, with its history', () => {
    floor()
      .when(promise('2030-02-01', { by: 'ana' }))
      .refuses('role_needed')
    floor(promise('2030-02-01')).when(promise('2030-02-01')).thenNothing()
    const { job } = floor(promise('2030-02-01'), promise('2030-02-08', { by: 'dee', reason: 'liner 3' }))
    expect(job.promises).toMatchObject([
      { date: '2030-02-01', reason: 'the shim' },
      { date: '2030-02-08', by: 'dee' },
    ])
  })
})

describe('a photo', () => {
  const port = { stepId: 'lift', gateId: 'aboard', place: 'port' }
  test('[PH4] is a fact before its bytes are here', () => {
    const then = floor().when(photo('p', port))
    then.gives({ type: 'PhotoAdded' })
    expect(then.job.photos[0]).not.toHaveProperty('arrived')
    expect(floor(photo('p', port), arrived('p')).job.photos[0]).toMatchObject({ arrived: true })
  })
  test('[PH1] the same again', () => {
    floor(photo('p', port)).when(photo('p', port)).thenNothing()
  })
  test('[PH2] [PH3] [PH4] of a step, a gate that asks for one, a place of it', () => {
    floor()
      .when(photo('p', { stepId: 'none' }))
      .refuses('step_not_found')
    floor()
      .when(photo('p', { ...port, gateId: 'rags' }))
      .refuses('gate_not_found')
    floor()
      .when(photo('p', { stepId: 'closing', gateId: 'rags' }))
      .refuses('gate_not_found')
    floor()
      .when(photo('p', { gateId: 'aboard' }))
      .refuses('gate_not_found')
    floor()
      .when(photo('p', { ...port, place: 'keel' }))
      .refuses('place_not_found', { place: 'keel' })
  })
  test('[PH5] [PH6] [PH7] arrives once, when its bytes are here', () => {
    floor().when(arrived('p')).refuses('photo_not_found')
    floor(photo('p'))
      .when(arrived('p', { bytesHere: () => false }))
      .refuses('photo_not_here')
    floor(photo('p'), arrived('p')).when(arrived('p')).thenNothing()
  })
})
