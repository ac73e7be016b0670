// Package filter calculates what a filter does in the air path: its clean drop,
// from printed points or from the geometry of its pleats; the effect of dust;
// the efficiency by MERV; the leakage around its frame; and the bow under the
// pressure on it.
//
// Symbols, in SI:
//
//	V      face velocity, m/s                 v     media velocity, m/s
//	P      pleat pitch, m                     L     pleat depth, m
//	t      media thickness, m                 e     fold gap, m
//	s      slant length over L                R     media resistance, Pa s/m
//	qu qd  flow up- and downstream of the media, per length of pleat, m2/s
//	hu hd  width of the up- and downstream gap, m
//	pu pd  static pressure there, Pa
//	rho    density, kg/m3                     mu    viscosity, Pa s
//	beta   momentum factor                    m     dust per media area, kg/m2
//	Re     wall Reynolds number rho v (h/2)/mu
//	A B C  coefficients of dp = A v + B v^2 + C v^n
//	E1 E2 E3   mean efficiency over 0.3-1, 1-3 and 3-10 micrometers
package filter
