/** The addresses of a job's pages. */
export const engineHref = (jobId: string): string => `/jobs/${jobId}`
/** One step's bench, or the list of steps. */
export const benchHref = (jobId: string, stepId?: string): string =>
  stepId === undefined ? `/jobs/${jobId}/bench` : `/jobs/${jobId}/bench/${stepId}`
export const auditHref = (jobId: string): string => `/jobs/${jobId}/audit`
export const recordHref = (jobId: string, number: string): string => `/jobs/${jobId}/record/${number}`
/** Where a torque without a published value is settled, and what it rests on stands for ever. */
export const settleHref = (jobId: string, joint: string, pass: number): string =>
  `/jobs/${jobId}/settle/${encodeURIComponent(joint)}/${pass}`
