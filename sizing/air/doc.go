// Package air holds the properties of the air that the ducts, filters, blower
// and coils see: pressure at altitude, density, viscosity and moist air.
//
// "Standard air" means three things in the trade. Here it is always 0.075
// lb/ft3 (1.20138 kg/m3), the density to which fan tables and pressure drops
// are printed; dry air at 70 F and sea level is 0.07489 lb/ft3, and the SI
// edition of the ASHRAE handbook uses 1.204 kg/m3.
//
// Moist air is a perfect-gas mixture after ASHRAE Handbook Fundamentals, ch. 1
// (Psychrometrics, SI edition). Against real-gas tables that is good to about
// 0.7 % in humidity ratio, enthalpy and volume from -50 to 50 C at sea level
// (same chapter, from memory).
//
//	symbol  meaning                                    unit
//	z       altitude above sea level, geometric        m
//	H       geopotential altitude                      m
//	p       total (barometric) pressure                Pa
//	pw      partial pressure of water vapor           Pa
//	pws     saturation pressure of water               Pa
//	T       absolute temperature                       K
//	t, t*   dry-bulb and wet-bulb temperature          C
//	W, Ws*  humidity ratio; saturated at t*            kg water / kg dry air
//	phi     relative humidity, pw/pws                  -
//	v       specific volume                            m3 / kg dry air
//	h       specific enthalpy                          J / kg dry air
//	rho     density of the moist air, (1 + W)/v        kg/m3
//	mu      dynamic viscosity                          Pa s
package air
