// Package thermal calculates what an airflow does to the temperatures: the rise
// through a furnace, and the capacity of a cooling coil.
//
// The coil is a direct-expansion coil seen from the air side. Part of the air
// passes as if untouched (the bypass factor), the rest leaves saturated at the
// apparatus dew point; the two mix. It is an engineering estimate: the
// refrigerant side is only in the two capacity factors, whose sources stand at
// FlowFactor and WetBulbFactor.
//
//	symbol  meaning                                               unit
//	q       airflow at the entering state                         m3/s
//	m       mass flow of dry air                                  kg/s
//	f       m over its rated value                                -
//	h       enthalpy per kg of dry air                            J/kg
//	W       humidity ratio                                        kg/kg
//	ADP     apparatus dew point: the coil's effective surface     K
//	BF      bypass factor, exp(-NTU)                              -
//	NTU     transfer units of the air side, NTU0/f                -
//	SHR     sensible over total capacity                          -
package thermal
