/** Which joints of a record the words asked for name: by joint, step or id, as somebody says them on the telephone. Pure. */
import type { JointGroup } from '../../job/record/rows'

interface FoundJoint {
  jointId: string
  stepId: string
  title: string
  stepTitle: string
}

/** No more than can be read at a glance; whoever sees none of theirs types one letter more. */
export const MOST_FOUND = 6

/** Every word asked stands somewhere in the joint's or its step's name. Nothing asked finds nothing. */
export function findJoints(
  groups: readonly Pick<JointGroup, 'joint' | 'step'>[],
  asked: string,
): FoundJoint[] {
  const words = asked.toLowerCase().split(/\s+/).filter(Boolean)
  if (words.length === 0) return []
  return groups
    .filter(({ joint, step }) => {
      const names = `${joint.id} ${joint.title} ${step.id} ${step.title}`.toLowerCase()
      return words.every((word) => names.includes(word))
    })
    .map(({ joint, step }) => ({
      jointId: joint.id,
      stepId: step.id,
      title: joint.title,
      stepTitle: step.title,
    }))
}
