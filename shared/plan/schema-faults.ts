/** What a layout check found, said so that the author of a plan file can put it right. */
import type { z } from 'zod'
import { type PlanFault, placeName } from './place'

type Issue = z.core.$ZodIssue

export function faultOf(issue: Issue, plan: unknown): PlanFault {
  return { path: placeName(plan, issue.path), ...wordsFor(issue) }
}

function wordsFor(issue: Issue): { problem: string; fix: string } {
  switch (issue.code) {
    case 'invalid_type':
      return issue.input === undefined
        ? { problem: 'is missing', fix: `Add it: ${KINDS[issue.expected] ?? issue.expected}.` }
        : {
            problem: `is ${shown(issue.input)}`,
            fix: `Write ${KINDS[issue.expected] ?? issue.expected} instead.`,
          }
    case 'unrecognized_keys':
      return {
        problem: `has ${list(issue.keys.map((key) => `“${key}”`))}, which a plan does not have here`,
        fix: 'Check the spelling, take it out, or write it as a note.',
      }
    case 'invalid_value':
      return {
        problem: issue.input === undefined ? 'is missing' : `is ${shown(issue.input)}`,
        fix: `Write ${list(issue.values.map(shown), 'or')}.`,
      }
    case 'invalid_union': {
      const options = 'options' in issue && Array.isArray(issue.options) ? issue.options : []
      return { problem: 'is missing or unknown', fix: `Write ${list(options.map(shown), 'or')}.` }
    }
    case 'too_small': {
      const least = Number(issue.minimum)
      if (issue.origin === 'string') return { problem: 'is empty', fix: 'Write at least one character.' }
      if (issue.origin === 'array') return { problem: 'has too few entries', fix: `Give at least ${least}.` }
      return {
        problem: `is ${shown(issue.input)}, too small`,
        fix: `Write a number ${issue.inclusive ? 'of at least' : 'above'} ${least}.`,
      }
    }
    case 'too_big': {
      const most = Number(issue.maximum)
      if (issue.origin === 'string') return { problem: 'is too long', fix: `Keep it to ${most} characters.` }
      if (issue.origin === 'array') return { problem: 'has too many entries', fix: `Keep it to ${most}.` }
      return { problem: `is ${shown(issue.input)}, too large`, fix: `Write a number up to ${most}.` }
    }
    case 'invalid_format':
      return {
        problem: `is ${shown(issue.input)}, with characters that cannot stand here`,
        fix:
          issue.path.at(-1) === 'd'
            ? 'Write drawing commands and numbers, as in M0 0L10 10.'
            : issue.path.at(-1) === 'photo'
              ? 'Write the photo’s SHA-256, 64 hex digits.'
              : 'Use letters, digits, full stop, hyphen and underscore, a letter or digit first.',
      }
    case 'custom':
      return { problem: issue.message, fix: 'Choose another.' }
    default:
      return { problem: 'cannot stand here', fix: 'See the published schema of plan files.' }
  }
}

const KINDS: Record<string, string> = {
  string: 'text in double quotes',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list in [ ]',
  object: 'an entry in { }',
}

function shown(value: unknown): string {
  if (typeof value === 'string') return `“${value.length > 40 ? `${value.slice(0, 40)}…` : value}”`
  if (Array.isArray(value)) return 'a list'
  if (typeof value === 'object' && value !== null) return 'an entry in { }'
  return String(value)
}

function list(items: readonly string[], joined = 'and'): string {
  return items.length < 2 ? items.join('') : `${items.slice(0, -1).join(', ')} ${joined} ${items.at(-1)}`
}
