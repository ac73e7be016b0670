package sizing

import (
	"context"
	"reflect"

	"returnbench/sizing/airpath"
	"returnbench/sizing/assume"
	"returnbench/sizing/calculations"
	"returnbench/sizing/compare"
	"returnbench/sizing/filter"
	"returnbench/sizing/house"
	"returnbench/sizing/job"
	"returnbench/sizing/judge"
	"returnbench/sizing/message"
	"returnbench/sizing/money"
	"returnbench/sizing/pleats"
	"returnbench/sizing/recommend"
	"returnbench/sizing/sampling"
	"returnbench/sizing/search"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
	"returnbench/sizing/upgrade"
)

// The names that programs use of the packages below. Each is documented in its
// own package.

// What a person entered.
type (
	CheckSet      = job.CheckSet
	Deviations    = job.Deviations
	DuctEnds      = job.DuctEnds
	DustPreset    = job.DustPreset
	Equipment     = job.Equipment
	EquipmentKind = job.EquipmentKind
	FieldError    = job.FieldError
	FieldErrors   = job.FieldErrors
	Job           = job.Job
	Limits        = job.Limits
	StockSize     = job.StockSize
	SizeUse       = job.SizeUse
	Mode          = job.Mode
	Option        = job.Option
	OutputPlace   = job.OutputPlace
	Part          = job.Part
	PlaceKind     = job.PlaceKind
	Reading       = job.Reading
	Return        = job.Return
	ReturnName    = job.ReturnName
	Site          = job.Site
	SizeSeries    = job.SizeSeries
	Slot          = job.Slot
	Uncertainty   = job.Uncertainty
	WorkPrices    = job.WorkPrices
)

// Results.
type (
	Air                 = study.Air
	Amount              = study.Amount
	SuggestedSizes      = study.SuggestedSizes
	AsFound             = study.AsFound
	Assembly            = study.Assembly
	Assumption          = study.Assumption
	Band                = study.Band
	Bands               = study.Bands
	Basis               = study.Basis
	BlowerResult        = study.BlowerResult
	BranchFlow          = study.BranchFlow
	Condition           = study.Condition
	Counts              = study.Counts
	CurvePoint          = study.CurvePoint
	Deferred            = study.Deferred
	DuctChoice          = study.DuctChoice
	DuctSize            = study.DuctSize
	Effect              = study.Effect
	Efficiency          = study.Efficiency
	FaceDrop            = study.FaceDrop
	FilterName          = study.FilterName
	FilterPlace         = study.FilterPlace
	FilterState         = study.FilterState
	Finding             = study.Finding
	LifeEnd             = study.LifeEnd
	LifePoint           = study.LifePoint
	OptionKind          = study.OptionKind
	OptionResult        = study.OptionResult
	OptionName          = study.OptionName
	PartDrop            = study.PartDrop
	Payback             = study.Payback
	ReturnComponent     = study.ReturnComponent
	PleatPoint          = study.PleatPoint
	PleatStudy          = study.PleatStudy
	PleatSweep          = study.PleatSweep
	Port                = study.Port
	Problem             = study.Problem
	ProblemChange       = study.ProblemChange
	ReadingMatch        = study.ReadingMatch
	ReadingResult       = study.ReadingResult
	ReadingRow          = study.ReadingRow
	Reason              = study.Reason
	Recommendation      = study.Recommendation
	Severity            = study.Severity
	Share               = study.Share
	Size                = study.Size
	StateChange         = study.StateChange
	Step                = study.Step
	StepInput           = study.StepInput
	Study               = study.Study
	TapAdvice           = study.TapAdvice
	TapResult           = study.TapResult
	AfterWorkComparison = study.AfterWorkComparison
	AfterWorkRow        = study.AfterWorkRow
	Working             = study.Working
)

// The air path.
type (
	PartName = airpath.PartName
)

// Options side by side, and how well a number is known.
type (
	Agreement         = compare.Agreement
	Claim             = compare.Claim
	Compared          = compare.Compared
	ComparedRow       = compare.ComparedRow
	Comparison        = compare.Comparison
	Measure           = compare.Measure
	OptionRange       = compare.OptionRange
	Range[T ~float64] = compare.Range[T]
	Sense             = compare.Sense
	Trend             = compare.Trend
	View              = compare.View
)

// What it takes to reach an airflow.
type (
	RequiredDrop  = upgrade.RequiredDrop
	Upgrade       = upgrade.Upgrade
	UpgradeSearch = upgrade.UpgradeSearch
)

// Samples.
type (
	Sampling = sampling.Sampling
)

// What a person entered.
const (
	ASHRAE622        = job.ASHRAE622
	AirHandler       = job.AirHandler
	Cooling          = job.Cooling
	DustLow          = job.DustLow
	DustOrdinary     = job.DustOrdinary
	DustPets         = job.DustPets
	DustWorks        = job.DustWorks
	Furnace          = job.Furnace
	FurnaceWithCoil  = job.FurnaceWithCoil
	Heating          = job.Heating
	IFGC             = job.IFGC
	InCabinet        = job.InCabinet
	InGrille         = job.InGrille
	InSlot           = job.InSlot
	FilterSize       = job.FilterSize
	GrilleSize       = job.GrilleSize
	InchSizes        = job.InchSizes
	MetricSizes      = job.MetricSizes
	MostFaults       = job.MostFaults
	NoEnds           = job.NoEnds
	NoFilterName     = job.NoFilterName
	OutputAtSeaLevel = job.OutputAtSeaLevel
	OutputAtSite     = job.OutputAtSite
	Schema           = job.Schema
	Title24          = job.Title24
	TodayName        = job.TodayName
	UsualEnds        = job.UsualEnds
)

// Results.
const (
	Added          = study.Added
	AirflowHigh    = study.AirflowHigh
	AirflowShort   = study.AirflowShort
	ByFriction     = study.ByFriction
	ByNumbers      = study.ByNumbers
	BySamples      = study.BySamples
	ByVelocity     = study.ByVelocity
	Caution        = study.Caution
	EndsAtAirflow  = study.EndsAtAirflow
	EndsAtCapacity = study.EndsAtCapacity
	EndsAtDrop     = study.EndsAtDrop
	EndsAtTime     = study.EndsAtTime
	FaceVelocity   = study.FaceVelocity
	FewestStops    = study.FewestStops
	FilterDrop     = study.FilterDrop
	FilterLeak     = study.FilterLeak
	FirstOfAlike   = study.FirstOfAlike
	Frost          = study.Frost
	FrostRisk      = study.FrostRisk
	Good           = study.Good
	KeepsFineness  = study.KeepsFineness
	KindNoFilter   = study.KindNoFilter
	KindOption     = study.KindOption
	KindToday      = study.KindToday
	LeastCost      = study.LeastCost
	Left           = study.Left
	Lessened       = study.Lessened
	LessenedClean  = study.LessenedClean
	RemovedUnsure  = study.RemovedUnsure
	LimitHigher    = study.LimitHigher
	MostRemoved    = study.MostRemoved
	NoOptions      = study.NoOptions
	NoneImproves   = study.NoneImproves
	NoneNeeded     = study.NoneNeeded
	NotHeld        = study.NotHeld
	OffTable       = study.OffTable
	OnlyOne        = study.OnlyOne
	OverWhenClean  = study.OverWhenClean
	Removed        = study.Removed
	RemovedClean   = study.RemovedClean
	RiseHigh       = study.RiseHigh
	RiseLow        = study.RiseLow
	StaticHigh     = study.StaticHigh
	Stop           = study.Stop
	ReasonTooClose = study.ReasonTooClose
	EffectTooClose = study.EffectTooClose
	WhenBoth       = study.WhenBoth
	WhenClean      = study.WhenClean
	WhenLoaded     = study.WhenLoaded
	Worsened       = study.Worsened
)

// Options side by side, and how well a number is known.
const (
	Better        = compare.Better
	ForAir        = compare.ForAir
	Less          = compare.Less
	More          = compare.More
	Nearer        = compare.Nearer
	Neither       = compare.Neither
	Other         = compare.Other
	RangeShare    = compare.RangeShare
	Same          = compare.Same
	ClaimBetter   = compare.ClaimBetter
	ClaimMixed    = compare.ClaimMixed
	ClaimTooClose = compare.ClaimTooClose
	ClaimWorse    = compare.ClaimWorse
	SureShare     = compare.SureShare
	TrendTooClose = compare.TrendTooClose
	Worse         = compare.Worse
)

// Samples.
const (
	UsualSamples = sampling.UsualSamples
	UsualSeed    = sampling.UsualSeed
)

// Judgment of readings.
const (
	ReadingShare = judge.ReadingShare
)

// CodeUnexplained is the code of the finding on a loss that the gauge found and nothing
// described explains.
const CodeUnexplained = study.CodeUnexplained

// Names of what is assumed.
const (
	GenericFilterName = assume.GenericFilterName
)

// The parts of the air path.
const (
	PartCoil        = airpath.PartCoil
	PartDuct        = airpath.PartDuct
	PartFilter      = airpath.PartFilter
	PartGrille      = airpath.PartGrille
	PartInTable     = airpath.PartInTable
	PartReturn      = airpath.PartReturn
	PartUnexplained = airpath.PartUnexplained
	PartSlotEntry   = airpath.PartSlotEntry
	PartSupply      = airpath.PartSupply
)

// The house solved.
const (
	PortInlet  = house.PortInlet
	PortOutlet = house.PortOutlet
	PortReturn = house.PortReturn
	PortSupply = house.PortSupply
)

// Results.
var (
	ErrUnsolved = study.ErrUnsolved
)

// Pleat sweeps.
var (
	ErrNoMedia = pleats.ErrNoMedia
)

// CheckSets are all sets of published limits that a job may tick.
func CheckSets() []CheckSet { return job.CheckSets() }

// WorstFirst sorts findings: stops, then cautions, then what is good.
func WorstFirst(fs []Finding) { judge.WorstFirst(fs) }

// Measures are the figures by which options are compared.
func Measures() []Measure { return compare.Measures() }

// NewFieldError is a fault of a field: what stands there, a value or a message about it,
// and what is wanted.
func NewFieldError(path string, given any, wanted message.Message) *FieldError {
	return job.NewFieldError(path, given, wanted)
}

// MoreFaults reports n faults beyond those listed.
func MoreFaults(n int) *FieldError { return job.MoreFaults(n) }

// MostItems is how many elements a list of a job may hold, by their type.
func MostItems(element reflect.Type) int { return job.MostItems(element) }

// MostPhotos is how many photos a job may hold.
const MostPhotos = job.MostPhotos

// MostLetters is how long a text of a job may be, by its field.
func MostLetters(name string) int { return job.MostLetters(name) }

// PlaceKinds are all kinds of filter place.
func PlaceKinds() []PlaceKind { return job.PlaceKinds() }

// UnsolvedNote is a sentence with the number of samples that had no solution and
// are left out; empty where all had one.
func UnsolvedNote(ranges []OptionRange) message.Message { return compare.UnsolvedNote(ranges) }

// RangeFindings are, for each option, the differences from today on which the
// samples agree.
func RangeFindings(ranges []OptionRange) []Finding { return compare.RangeFindings(ranges) }

// Ranges takes samples of a job; see Sampling.
func Ranges(ctx context.Context, job Job, samples int, seed uint64, done func(int)) ([]OptionRange, error) {
	return sampling.Ranges(ctx, job, samples, seed, done)
}

// ReadingMargin is the largest difference between a measured and a predicted
// pressure that counts as agreement.
func ReadingMargin(predicted units.Pressure) units.Pressure { return judge.ReadingMargin(predicted) }

// SweepPleats calculates drop and media area over the pleat count at each depth.
func SweepPleats(f filter.Filter, face units.Speed, altitude units.Length, depths []units.Length) ([]PleatSweep, error) {
	return pleats.SweepPleats(f, face, altitude, depths)
}

// NameOf is the name of the i-th return of a list.
func NameOf(r Return, i int) ReturnName { return job.NameOf(r, i) }

// Replaced is today's return that the i-th return of an option replaces; nil: it is new.
func Replaced(today []Return, r Return, i int) *Return { return job.Replaced(today, r, i) }

// TapName names a tap in a sentence.
func TapName(name string) message.Message { return job.TapName(name) }

// UsualDeviations are used where a job states no uncertainty of its own.
func UsualDeviations() Deviations { return job.UsualDeviations() }

// Compare puts the options of a Study side by side. ranges may be nil.
func Compare(s *Study, v View, ranges []OptionRange) Comparison { return compare.Compare(s, v, ranges) }

// CoolingTime is the running time of an option for today's sensible cooling, as
// a share of today's time.
func CoolingTime(s *Study, o *OptionResult) (share float64, known bool) {
	return money.CoolingTime(s, o)
}

// WithRanges is the study with its claims held to what the samples agree on.
func WithRanges(s *Study, ranges []OptionRange) *Study { return recommend.WithRanges(s, ranges) }

// Short reports whether a figure is noticeably under the one wanted.
func Short[T ~float64](figure, wanted T) bool { return study.Short(figure, wanted) }

// CostPoints are the cost of an option's work now, and its cost over ten years
// beside today's.
func CostPoints(o, today *OptionResult) message.Rows { return recommend.CostPoints(o, today) }

// AddSize makes a listed size an option of the job and gives the option's name, in
// English.
func AddSize(j *Job, z Size) (option string) { return search.AddSize(units.IP, j, z) }

// AddSizeIn is AddSize with a name for a reader.
func AddSizeIn(l units.Locale, j *Job, z Size) (option string) { return search.AddSize(l, j, z) }

// AddUpgrade makes an upgrade an option of the job and gives the option's name, in
// English.
func AddUpgrade(j *Job, u Upgrade) (option string) { return upgrade.AddUpgrade(units.IP, j, u) }

// AddUpgradeIn is AddUpgrade with a name for a reader.
func AddUpgradeIn(l units.Locale, j *Job, u Upgrade) (option string) {
	return upgrade.AddUpgrade(l, j, u)
}

// SlotOf is a size as a filter place before the blower, holding a filter.
func SlotOf(z *Size, filter string) Slot { return search.SlotOf(z, filter) }

// RangeWorkings are the steps from the samples of the options to their ranges.
func RangeWorkings(s *Study, ranges []OptionRange) []Working {
	return calculations.RangeWorkings(s, ranges)
}
