/** Torque units and how numbers are shown. Stored torques are N·m; other units exist at the edges only. */
export { formatNumber, roundTo, showTorque } from './show'
export { compareNm, fromNm, TORQUE_UNITS, type TorqueUnit, toMicroNm, toNm } from './torque'
