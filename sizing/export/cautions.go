package export

import "returnbench/sizing/message"

// Cautions are the safety sentences that are printed before or after everything
// that leads to work on equipment.
func Cautions() []message.ID {
	return []message.ID{
		"Switch off power at the disconnect, and the gas where the equipment burns it, and check that both are off before opening anything.",
		"Sheet metal cuts: wear gloves and eye protection.",
		"Old duct tape and wrap may hold asbestos: stop, leave it alone and have it tested.",
		"Never run the blower with its door or the filter out.",
		"A return must not draw from a closet, a bathroom, a toilet room, a kitchen, a garage, a boiler or furnace room, an attic or a crawl space, nor from within 10 ft (3 m) of an open combustion appliance or draft hood in the same room (model mechanical and residential codes, from secondary text; the local code rules).",
		"After any change to the return near fuel-burning equipment have draft and combustion tested.",
		"Cabinet, gas, electrical and refrigerant work is for licensed installers under the local code and the equipment's own instructions, which override this program.",
	}
}
