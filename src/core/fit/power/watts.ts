/** 650 W x 0.7 comes out a hair under 455 in binary, and a load of 455 W must still fit. */
export const toMilliwatt = (watt: number): number => Math.round(watt * 1000) / 1000
