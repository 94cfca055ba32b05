export * from './calendar'
export * from './format'
export * from './types'
