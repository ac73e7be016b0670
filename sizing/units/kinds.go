package units

// The dimensions. Factors are the exact international definitions (inch
// 0.0254 m, pound 0.45359237 kg, standard gravity 9.80665 m/s2); the inch of
// water is the conventional one, 249.08891 Pa.
type (
	// Flow is a volume flow in m3/s.
	Flow = Of[flow]
	// Pressure is a pressure or pressure difference in Pa.
	Pressure = Of[pressure]
	// Length is a length in m.
	Length = Of[length]
	// Area is an area in m2.
	Area = Of[area]
	// Speed is a speed in m/s.
	Speed = Of[speed]
	// Temperature is an absolute temperature in K.
	Temperature = Of[temperature]
	// TemperatureDifference is in K.
	TemperatureDifference = Of[temperatureDifference]
	// Power is electrical power in W.
	Power = Of[power]
	// HeatRate is a flow of heat in W.
	HeatRate = Of[heatRate]
	// Capacity is a cooling capacity in W, written in tons.
	Capacity = Of[capacity]
	// FlowPerCapacity is airflow per cooling capacity in m3/(s W).
	FlowPerCapacity = Of[flowPerCapacity]
	// FanEfficacy is fan watts per airflow in W s/m3.
	FanEfficacy = Of[fanEfficacy]
	// Energy is in J.
	Energy = Of[energy]
	// EnergyPrice is money per energy, in money per J.
	EnergyPrice = Of[energyPrice]
	// Money is an amount in the currency of the job.
	Money = Of[money]
	// Mass is in kg.
	Mass = Of[mass]
	// MassRate is in kg/s.
	MassRate = Of[massRate]
	// Density is in kg/m3.
	Density = Of[density]
	// Duration is a time span in s.
	Duration = Of[duration]
	// Rotation is a rotational speed in turns per second.
	Rotation = Of[rotation]
	// Force is in N.
	Force = Of[force]
	// MediaResistance is pressure per media velocity in Pa s/m.
	MediaResistance = Of[mediaResistance]
	// Permeability is airflow per media area at 125 Pa (ASTM D737), in m/s.
	Permeability = Of[permeability]
	// FrictionRate is pressure drop per length of duct in Pa/m.
	FrictionRate = Of[frictionRate]
)

const (
	CubicMetrePerSecond Flow = 1
	LitrePerSecond           = CubicMetrePerSecond / 1000
	CubicMetrePerHour        = CubicMetrePerSecond / 3600
	CFM                 Flow = 0.0004719474432 // ft3/min, 0.3048^3/60
)

const (
	Pascal     Pressure = 1
	InchWater           = 249.08891 * Pascal // 1000 kg/m3 x 9.80665 m/s2 x 0.0254 m
	MilliWater          = 9.80665 * Pascal   // millimeter of water
)

const (
	Metre      Length = 1
	Centimetre        = Metre / 100
	Millimetre        = Metre / 1000
	Inch              = 0.0254 * Metre
	Foot              = 0.3048 * Metre
)

const (
	SquareMetre Area = 1
	SquareInch       = 0.00064516 * SquareMetre
	SquareFoot       = 0.09290304 * SquareMetre
)

const (
	MetrePerSecond Speed = 1
	FPM                  = 0.00508 * MetrePerSecond // ft/min
)

const (
	Kelvin           Temperature           = 1
	KelvinDifference TemperatureDifference = 1
	FahrenheitDegree                       = KelvinDifference * 5 / 9 // a difference of 1 °F
)

const (
	Watt     Power = 1
	Kilowatt       = 1000 * Watt
)

const (
	HeatWatt     HeatRate = 1
	HeatKilowatt          = 1000 * HeatWatt
	BtuPerHour            = 0.2930710701722222 * HeatWatt // International Table Btu, 1055.05585262 J
)

const (
	CapacityWatt     Capacity = 1
	CapacityKilowatt          = 1000 * CapacityWatt
	Ton                       = 12000 * 0.2930710701722222 * CapacityWatt // of refrigeration
)

const (
	CFMPerTon                FlowPerCapacity = 0.0004719474432 / (12000 * 0.2930710701722222)
	LitrePerSecondPerKW      FlowPerCapacity = 1e-6
	WattPerCFM               FanEfficacy     = 1 / 0.0004719474432
	WattPerLitreSecond       FanEfficacy     = 1000
	Joule                    Energy          = 1
	KilowattHour             Energy          = 3.6e6
	MoneyPerKilowattHour     EnergyPrice     = 1 / 3.6e6
	Dollar                   Money           = 1
	Kilogram                 Mass            = 1
	Gram                     Mass            = 1e-3
	Pound                    Mass            = 0.45359237
	GramPerDay               MassRate        = 1e-3 / 86400
	KilogramPerCubicMetre    Density         = 1
	PoundPerCubicFoot        Density         = 16.01846337396014
	Second                   Duration        = 1
	Hour                     Duration        = 3600
	Day                      Duration        = 86400
	Month                    Duration        = Year / 12
	Year                     Duration        = 365.25 * 86400
	RPM                      Rotation        = 1.0 / 60
	Newton                   Force           = 1
	PoundForce               Force           = 4.4482216152605
	PascalSecondPerMetre     MediaResistance = 1
	PermeabilityMetreSecond  Permeability    = 1
	PermeabilityCFMPerSquare Permeability    = 0.00508 // ft3/min per ft2 is ft/min
	PascalPerMetre           FrictionRate    = 1
	InchWaterPer100Feet      FrictionRate    = 249.08891 / 30.48
)

// Fahrenheit makes an absolute temperature from degrees Fahrenheit.
func Fahrenheit(f float64) Temperature {
	return Temperature(float64(f*fahrenheitScale) + fahrenheitZero) // rounded as Unit.ToSI does
}

// Celsius makes an absolute temperature from degrees Celsius.
func Celsius(c float64) Temperature { return Temperature(c + 273.15) }

// ToFahrenheit gives degrees Fahrenheit.
func ToFahrenheit(t Temperature) float64 { return (float64(t) - fahrenheitZero) / fahrenheitScale }

// ToCelsius gives degrees Celsius.
func ToCelsius(t Temperature) float64 { return float64(t) - 273.15 }

// Warmer is a temperature raised by a difference, lowered by a negative one.
func Warmer(t Temperature, by TemperatureDifference) Temperature { return t + Temperature(by) }

// Rise is the difference from one temperature to another.
func Rise(from, to Temperature) TemperatureDifference { return TemperatureDifference(to - from) }

const (
	fahrenheitScale = 5.0 / 9
	fahrenheitZero  = 273.15 - 32*5.0/9
)

// Kinds are all the dimensions.
func Kinds() []*Kind {
	return []*Kind{
		flowKind, pressureKind, lengthKind, areaKind, speedKind, temperatureKind, temperatureDifferenceKind,
		powerKind, heatRateKind, capacityKind, flowPerCapacityKind, fanEfficacyKind, energyKind, energyPriceKind,
		moneyKind, massKind, massRateKind, densityKind, durationKind, rotationKind, forceKind,
		mediaResistanceKind, permeabilityKind, frictionRateKind,
	}
}

type (
	flow                  struct{}
	pressure              struct{}
	length                struct{}
	area                  struct{}
	speed                 struct{}
	temperature           struct{}
	temperatureDifference struct{}
	power                 struct{}
	heatRate              struct{}
	capacity              struct{}
	flowPerCapacity       struct{}
	fanEfficacy           struct{}
	energy                struct{}
	energyPrice           struct{}
	money                 struct{}
	mass                  struct{}
	massRate              struct{}
	density               struct{}
	duration              struct{}
	rotation              struct{}
	force                 struct{}
	mediaResistance       struct{}
	permeability          struct{}
	frictionRate          struct{}
)

func (flow) kind() *Kind                  { return flowKind }
func (pressure) kind() *Kind              { return pressureKind }
func (length) kind() *Kind                { return lengthKind }
func (area) kind() *Kind                  { return areaKind }
func (speed) kind() *Kind                 { return speedKind }
func (temperature) kind() *Kind           { return temperatureKind }
func (temperatureDifference) kind() *Kind { return temperatureDifferenceKind }
func (power) kind() *Kind                 { return powerKind }
func (heatRate) kind() *Kind              { return heatRateKind }
func (capacity) kind() *Kind              { return capacityKind }
func (flowPerCapacity) kind() *Kind       { return flowPerCapacityKind }
func (fanEfficacy) kind() *Kind           { return fanEfficacyKind }
func (energy) kind() *Kind                { return energyKind }
func (energyPrice) kind() *Kind           { return energyPriceKind }
func (money) kind() *Kind                 { return moneyKind }
func (mass) kind() *Kind                  { return massKind }
func (massRate) kind() *Kind              { return massRateKind }
func (density) kind() *Kind               { return densityKind }
func (duration) kind() *Kind              { return durationKind }
func (rotation) kind() *Kind              { return rotationKind }
func (force) kind() *Kind                 { return forceKind }
func (mediaResistance) kind() *Kind       { return mediaResistanceKind }
func (permeability) kind() *Kind          { return permeabilityKind }
func (frictionRate) kind() *Kind          { return frictionRateKind }

// Units with an offset or a scale of one stay last so that exact text prefers
// what people type.
var (
	flowKind = newKind("airflow", display{"cfm", 0}, display{"L/s", 0},
		Unit{Name: "cfm", Scale: float64(CFM), aliases: []string{"ft3/min", "cuft/min", "cubic feet per minute", "CFM"}},
		Unit{Name: "L/s", Scale: float64(LitrePerSecond), aliases: []string{"l/s", "lps", "litre/s", "liter/s", "l/sec"}},
		Unit{Name: "m3/h", Scale: float64(CubicMetrePerHour), aliases: []string{"m3/hr", "cmh", "m3h"}},
		Unit{Name: "m3/s", Scale: 1, aliases: []string{"m3/sec", "cms"}})
	pressureKind = newKind("pressure", display{"in. w.c.", 3}, display{"Pa", 1},
		Unit{Name: "in. w.c.", Scale: float64(InchWater), aliases: []string{"in wc", "inch wc", "inches wc", "iwc", "in wg", "iwg", "in h2o", "inh2o", "in water", "inches of water", "inch of water", `"wc`, `"wg`, `"h2o`, "wc", "w.g."}},
		Unit{Name: "Pa", Scale: 1, aliases: []string{"pascal", "pascals"}},
		Unit{Name: "mm w.c.", Scale: float64(MilliWater), aliases: []string{"mmwg", "mmh2o", "mm water"}, readOnly: true},
		Unit{Name: "kPa", Scale: 1000, readOnly: true})
	lengthKind = newKind("length", display{"in", 2}, display{"mm", 0},
		Unit{Name: "in", Scale: float64(Inch), aliases: []string{"inch", "inches", `"`}, most: 60},
		Unit{Name: "ft", Scale: float64(Foot), aliases: []string{"foot", "feet", "'"}},
		Unit{Name: "mm", Scale: float64(Millimetre), aliases: []string{"millimetre", "millimeter"}, most: 10000},
		Unit{Name: "cm", Scale: float64(Centimetre), most: 1000},
		Unit{Name: "m", Scale: 1, aliases: []string{"metre", "meter", "metres", "meters"}}).
		farther(10*float64(Foot), display{"ft", 1}, display{"m", 2})
	areaKind = newKind("area", display{"in2", 0}, display{"cm2", 0},
		Unit{Name: "in2", Scale: float64(SquareInch), aliases: []string{"sq in", "square inch", "square inches", "sqin"}},
		Unit{Name: "ft2", Scale: float64(SquareFoot), aliases: []string{"sq ft", "square foot", "square feet", "sqft"}},
		Unit{Name: "cm2", Scale: 1e-4, aliases: []string{"sq cm"}},
		Unit{Name: "m2", Scale: 1, aliases: []string{"sq m", "square metre", "square meter"}})
	speedKind = newKind("speed", display{"fpm", 0}, display{"m/s", 2},
		Unit{Name: "fpm", Scale: float64(FPM), aliases: []string{"ft/min", "feet per minute"}},
		Unit{Name: "m/s", Scale: 1, aliases: []string{"mps", "m/sec"}})
	temperatureKind = newKind("temperature", display{"F", 1}, display{"C", 1},
		Unit{Name: "F", Scale: fahrenheitScale, Offset: fahrenheitZero, mark: "°F", aliases: []string{"deg f", "fahrenheit"}},
		Unit{Name: "C", Scale: 1, Offset: 273.15, mark: "°C", aliases: []string{"deg c", "celsius"}},
		Unit{Name: "K", Scale: 1, aliases: []string{"kelvin"}})
	temperatureDifferenceKind = newKind("temperature difference", display{"F", 1}, display{"K", 1},
		Unit{Name: "F", Scale: float64(FahrenheitDegree), mark: "°F", aliases: []string{"deg f", "f deg", "fahrenheit", "delta f"}},
		Unit{Name: "K", Scale: 1, aliases: []string{"C", "deg c", "celsius", "kelvin"}})
	powerKind = newKind("power", display{"W", 0}, display{"W", 0},
		Unit{Name: "W", Scale: 1, aliases: []string{"watt", "watts"}},
		Unit{Name: "kW", Scale: 1000},
		Unit{Name: "hp", Scale: 745.6998715822702, readOnly: true})
	heatRateKind = newKind("heat rate", display{"Btu/h", 0}, display{"kW", 2},
		Unit{Name: "Btu/h", Scale: float64(BtuPerHour), aliases: []string{"btuh", "btu/hr"}},
		Unit{Name: "kBtu/h", Scale: 1000 * float64(BtuPerHour), aliases: []string{"mbh", "kbtuh", "kbtu/hr"}, readOnly: true},
		Unit{Name: "kW", Scale: 1000},
		Unit{Name: "W", Scale: 1},
		Unit{Name: "ton", Scale: float64(Ton), aliases: []string{"tons"}, readOnly: true})
	capacityKind = newKind("cooling capacity", display{"ton", 1}, display{"kW", 1},
		Unit{Name: "ton", Scale: float64(Ton), aliases: []string{"tons", "tr"}},
		Unit{Name: "kW", Scale: 1000},
		Unit{Name: "Btu/h", Scale: float64(BtuPerHour), aliases: []string{"btuh", "btu/hr"}},
		Unit{Name: "W", Scale: 1})
	flowPerCapacityKind = newKind("airflow per cooling capacity", display{"cfm/ton", 0}, display{"L/s/kW", 1},
		Unit{Name: "cfm/ton", Scale: float64(CFMPerTon), aliases: []string{"cfm per ton"}},
		Unit{Name: "L/s/kW", Scale: float64(LitrePerSecondPerKW), aliases: []string{"l/(s kw)", "L/s per kW"}},
		Unit{Name: "m3/h/kW", Scale: 1.0 / 3600 / 1000, readOnly: true},
		Unit{Name: "m3/s/W", Scale: 1})
	fanEfficacyKind = newKind("fan efficacy", display{"W/cfm", 2}, display{"W/(L/s)", 2},
		Unit{Name: "W/cfm", Scale: float64(WattPerCFM)},
		Unit{Name: "W/(L/s)", Scale: float64(WattPerLitreSecond)},
		Unit{Name: "W/(m3/s)", Scale: 1})
	energyKind = newKind("energy", display{"kWh", 0}, display{"kWh", 0},
		Unit{Name: "kWh", Scale: float64(KilowattHour)},
		Unit{Name: "MJ", Scale: 1e6, readOnly: true},
		Unit{Name: "Btu", Scale: 1055.05585262, readOnly: true},
		Unit{Name: "J", Scale: 1})
	energyPriceKind = newKind("energy price", display{"$/kWh", 3}, display{"$/kWh", 3},
		Unit{Name: "$/kWh", Scale: float64(MoneyPerKilowattHour), aliases: []string{"/kWh", "per kWh", "€/kWh", "£/kWh"}},
		Unit{Name: "cents/kWh", Scale: float64(MoneyPerKilowattHour) / 100, aliases: []string{"cent/kWh", "c/kWh", "¢/kWh"}, readOnly: true},
		Unit{Name: "$/J", Scale: 1}).signed("")
	moneyKind = newKind("amount of money", display{"$", 2}, display{"$", 2},
		Unit{Name: "$", Scale: 1, aliases: []string{"€", "£", "dollar", "dollars"}}).signed("$").wholeFrom(100)
	massKind = newKind("mass", display{"g", 0}, display{"g", 0},
		Unit{Name: "g", Scale: 1e-3, aliases: []string{"gram", "grams"}},
		Unit{Name: "kg", Scale: 1},
		Unit{Name: "lb", Scale: float64(Pound), readOnly: true},
		Unit{Name: "oz", Scale: float64(Pound) / 16, readOnly: true})
	massRateKind = newKind("dust rate", display{"g/day", 2}, display{"g/day", 2},
		Unit{Name: "g/day", Scale: float64(GramPerDay), aliases: []string{"g/d", "gram/day", "grams per day"}},
		Unit{Name: "g/h", Scale: 1e-3 / 3600, readOnly: true},
		Unit{Name: "kg/s", Scale: 1})
	densityKind = newKind("density", display{"lb/ft3", 4}, display{"kg/m3", 3},
		Unit{Name: "lb/ft3", Scale: float64(PoundPerCubicFoot)},
		Unit{Name: "kg/m3", Scale: 1})
	durationKind = newKind("time span", display{"month", 1}, display{"month", 1},
		Unit{Name: "month", Scale: float64(Month), aliases: []string{"months", "mo"}, many: "months"},
		Unit{Name: "h", Scale: float64(Hour), aliases: []string{"hr", "hour", "hours"}},
		Unit{Name: "day", Scale: float64(Day), aliases: []string{"d", "days"}},
		Unit{Name: "year", Scale: float64(Year), aliases: []string{"years", "yr", "a"}},
		Unit{Name: "s", Scale: 1})
	rotationKind = newKind("rotational speed", display{"rpm", 0}, display{"rpm", 0},
		Unit{Name: "rpm", Scale: float64(RPM), aliases: []string{"1/min", "r/min"}},
		Unit{Name: "1/s", Scale: 1})
	forceKind = newKind("force", display{"lbf", 1}, display{"N", 1},
		Unit{Name: "lbf", Scale: float64(PoundForce)},
		Unit{Name: "N", Scale: 1})
	mediaResistanceKind = newKind("media resistance", display{"Pa s/m", 1}, display{"Pa s/m", 1},
		Unit{Name: "Pa s/m", Scale: 1, aliases: []string{"Pa/(m/s)", "pa per m/s"}},
		Unit{Name: "in. w.c./fpm", Scale: float64(InchWater) / float64(FPM), readOnly: true})
	permeabilityKind = newKind("air permeability", display{"cfm/ft2", 0}, display{"L/s/m2", 0},
		Unit{Name: "cfm/ft2", Scale: float64(PermeabilityCFMPerSquare), aliases: []string{"ft3/min/ft2", "cfm/sq ft"}},
		Unit{Name: "L/s/m2", Scale: 1e-3, aliases: []string{"l/m2/s", "l/(m2 s)", "mm/s"}},
		Unit{Name: "m/s", Scale: 1})
	frictionRateKind = newKind("friction rate", display{"in. w.c./100 ft", 3}, display{"Pa/m", 2},
		Unit{Name: "in. w.c./100 ft", Scale: float64(InchWaterPer100Feet), aliases: []string{"in wc/100ft", "in wg/100ft", "iwc/100ft", "in h2o/100ft", "in wc per 100 ft", `"wc/100ft`}},
		Unit{Name: "Pa/m", Scale: 1, aliases: []string{"pa per metre", "pa per meter"}})
)
