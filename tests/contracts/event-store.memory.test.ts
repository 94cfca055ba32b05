import { memoryEventStore } from '../../server/store'
import { eventStoreKeepsItsPromises } from './event-store'

eventStoreKeepsItsPromises('in memory', memoryEventStore)
