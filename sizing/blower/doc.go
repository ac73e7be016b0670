// Package blower reads blower tables: airflow, watts and speed against
// external static pressure, per speed tap.
//
// A table's few points are joined by a monotone cubic (PCHIP: Fritsch and
// Butland 1984), airflow as a function of static. The static at an airflow is
// read from that same cubic, so the two readings agree. Makers' tables are
// usually read along straight lines; LinearAirflow does so, and ReadingSpread
// is the difference of the two readings, which is part of the uncertainty of
// any result from a table.
//
// A table holds for standard air (0.075 lb/ft3, 1.20138 kg/m3). In thinner or
// thicker air the blower moves the same volume against a static, and draws
// watts, in proportion to density: Curve.AtDensity.
//
// Symbols:
//
//	p   external static pressure, Pa
//	q   airflow, m3/s
//	P   electrical power, W
//	n   speed, 1/s
//	rho density of the air, kg/m3
//	d   slope dq/dp at a table point, m3/(s Pa); never positive
//	h   width of a table interval, Pa
//	t   place in a table interval, 0 at its low-static end, 1 at the other
package blower
