package export

// Cautions are the words for safety that stand before or after anything that
// leads to work on equipment.
func Cautions() []string {
	return []string{
		"Switch off power at the disconnect, and gas where there is a furnace, and check that it is off before opening anything.",
		"Sheet metal cuts: wear gloves and eye protection.",
		"Old duct tape and wrap may hold asbestos: stop, leave it alone and have it tested.",
		"Never run the blower with its door or the filter out.",
		"A return must not draw from a garage, a bathroom, a kitchen or a room with an open combustion appliance.",
		"After any change to the return near fuel-burning equipment have draft and combustion tested.",
		"Cabinet, gas, electrical and refrigerant work is for licensed installers under the local code and the equipment's own instructions, which override this program.",
	}
}
