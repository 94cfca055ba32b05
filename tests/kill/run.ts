/** Kills one after another on shops that each live for a dozen of them; every choice from a seed, only the moment's luck is not. */
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { killIn, PHASES, type Phase } from './phases'
import { drawFrom } from './random'
import { type KilledShop, openShop } from './shop'

/** Of twenty kills: most fall into the work. */
const TIMES: Record<Phase, number> = { work: 9, 'first run': 3, backup: 3, migration: 2, restore: 3 }
const DRAWN = PHASES.flatMap((phase) => Array<Phase>(TIMES[phase]).fill(phase))
const KILLS_A_LIFE = 12

export interface PhaseSum {
  kills: number
  failed: number
}

export interface Sum {
  phases: Record<Phase, PhaseSum>
  acknowledged: number
  /** Kills that fell between a command and its answer. */
  cut: number
}

interface Parts {
  kills: number
  seed: number
  /** Those there are to be, in turn; drawn unless told. */
  phases?: readonly Phase[]
  /** After each kill. */
  told?(done: number, sum: Sum): void
  /** With the folder in which all of it is kept. */
  failed?(phase: Phase, seed: number, wrong: readonly string[], kept: string): void
}

export async function runKills({ kills, seed, phases, told, failed }: Parts): Promise<Sum> {
  const sum: Sum = {
    phases: Object.fromEntries(PHASES.map((phase) => [phase, { kills: 0, failed: 0 }])) as Sum['phases'],
    acknowledged: 0,
    cut: 0,
  }
  for (let done = 0, life = seed; done < kills; life++) {
    const draw = drawFrom(life)
    const folder = mkdtempSync(join(tmpdir(), 'paintmark-kill-'))
    const dataFolder = join(folder, 'shop')
    let isKept = false
    let shop: KilledShop | undefined
    try {
      shop = await openShop(dataFolder)
      for (let n = 0; n < KILLS_A_LIFE && done < kills && !isKept; n++) {
        const phase = phases?.[done % phases.length] ?? draw.pick(DRAWN)
        const aside = join(folder, `${n}-${phase.replace(' ', '-')}`)
        mkdirSync(aside)
        const of = sum.phases[phase]
        of.kills += 1
        const scene = { shop, dataFolder, aside, draw, cut: () => sum.cut++ }
        const wrong = await killIn(phase, scene).catch((error) => [String(error?.stack ?? error)])
        done += 1
        if (wrong.length > 0) {
          of.failed += 1
          isKept = true
          failed?.(phase, life, wrong, folder)
        } else rmSync(aside, { recursive: true, force: true })
        told?.(done, sum)
      }
      sum.acknowledged += shop.acknowledged()
    } finally {
      await shop?.close()
      if (!isKept) rmSync(folder, { recursive: true, force: true })
    }
  }
  return sum
}
