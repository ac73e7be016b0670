// Package airpath draws the path of the air, from the returns through filter,
// blower and coil to the supply, with pressures at the test ports. Each part can
// be pressed or entered by keyboard.
package airpath
