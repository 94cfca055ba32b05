/** Where a torque without a published value is settled, and what it rests on stands for ever. */
export const settleHref = (jobId: string, joint: string, pass: number): string =>
  `/jobs/${jobId}/settle/${encodeURIComponent(joint)}/${pass}`
