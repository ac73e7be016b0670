// Package duct calculates the pressure drop of straight ducts, fittings and
// return grilles.
//
// Four areas of a grille are kept apart: the gross area is the nominal opening,
// width x height; the net free area is the open part of it; the face velocity is
// the airflow over the gross area and the free-area velocity the airflow over the
// net free area.
//
// Airflows are signed: a drop has the sign of its airflow, so that a network
// solver may pass either direction.
//
//	symbol  meaning                                            unit
//	q       airflow                                            m3/s
//	A       section area                                       m2
//	V       mean velocity, q/A                                 m/s
//	D       diameter                                           m
//	De      round duct of equal friction at equal airflow      m
//	Dh      hydraulic diameter, 4 x area / perimeter           m
//	L       installed length                                   m
//	e       wall roughness                                     m
//	rho     density                                            kg/m3
//	mu      dynamic viscosity                                  Pa s
//	Re      Reynolds number, rho V D/mu                        -
//	f       Darcy friction factor                              -
//	zeta    loss coefficient on the velocity pressure          -
//	K       longitudinal compression of a flex                 %
//	dp      drop in total pressure                             Pa
package duct
