package sizing

import (
	"context"
	"reflect"
	"returnbench/sizing/assume"
	"returnbench/sizing/compare"
	"returnbench/sizing/filter"
	"returnbench/sizing/house"
	"returnbench/sizing/job"
	"returnbench/sizing/judge"
	"returnbench/sizing/money"
	"returnbench/sizing/pleats"
	"returnbench/sizing/recommend"
	"returnbench/sizing/sampling"
	"returnbench/sizing/search"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
	"returnbench/sizing/upgrade"
)

type (
	Agreement         = compare.Agreement
	Air               = study.Air
	Amount            = study.Amount
	Answer            = study.Answer
	AsFound           = study.AsFound
	Assembly          = study.Assembly
	Assumption        = study.Assumption
	Band              = study.Band
	Bands             = study.Bands
	Basis             = study.Basis
	BlowerResult      = study.BlowerResult
	BranchFlow        = study.BranchFlow
	CheckSet          = job.CheckSet
	Compared          = compare.Compared
	ComparedRow       = compare.ComparedRow
	Comparison        = compare.Comparison
	Condition         = study.Condition
	Counts            = study.Counts
	CurvePoint        = study.CurvePoint
	Deferred          = study.Deferred
	Deviations        = job.Deviations
	DuctChoice        = study.DuctChoice
	DuctEnds          = job.DuctEnds
	DuctSize          = study.DuctSize
	DustPreset        = job.DustPreset
	Effect            = study.Effect
	Efficiency        = study.Efficiency
	Equipment         = job.Equipment
	EquipmentKind     = job.EquipmentKind
	FaceDrop          = study.FaceDrop
	FieldError        = job.FieldError
	FieldErrors       = job.FieldErrors
	FilterPlace       = study.FilterPlace
	FilterState       = study.FilterState
	Finding           = study.Finding
	Job               = job.Job
	RequiredDrop      = upgrade.RequiredDrop
	LifeEnd           = study.LifeEnd
	LifePoint         = study.LifePoint
	Limits            = job.Limits
	Measure           = compare.Measure
	Mode              = job.Mode
	Option            = job.Option
	OptionKind        = study.OptionKind
	OptionRange       = compare.OptionRange
	OptionResult      = study.OptionResult
	OutputPlace       = job.OutputPlace
	Part              = job.Part
	PartDrop          = study.PartDrop
	Payback           = study.Payback
	Piece             = study.Piece
	PlaceKind         = job.PlaceKind
	PleatPoint        = study.PleatPoint
	PleatStudy        = study.PleatStudy
	PleatSweep        = study.PleatSweep
	Port              = study.Port
	Problem           = study.Problem
	ProblemChange     = study.ProblemChange
	Range[T ~float64] = compare.Range[T]
	UpgradeSearch     = upgrade.UpgradeSearch
	Reading           = job.Reading
	ReadingMatch      = study.ReadingMatch
	ReadingResult     = study.ReadingResult
	ReadingRow        = study.ReadingRow
	Reason            = study.Reason
	Recommendation    = study.Recommendation
	Return            = job.Return
	Sampling          = sampling.Sampling
	Sense             = compare.Sense
	Severity          = study.Severity
	Share             = study.Share
	Site              = job.Site
	Size              = study.Size
	SizeSeries        = job.SizeSeries
	Slot              = job.Slot
	Standing          = compare.Standing
	StateChange       = study.StateChange
	Step              = study.Step
	Study             = study.Study
	TapAdvice         = study.TapAdvice
	TapResult         = study.TapResult
	Trend             = compare.Trend
	Uncertainty       = job.Uncertainty
	View              = compare.View
	Upgrade           = upgrade.Upgrade
	WorkPrices        = job.WorkPrices
	WorkResult        = study.WorkResult
	WorkRow           = study.WorkRow
	Working           = study.Working
)

const (
	ASHRAE622         = job.ASHRAE622
	Added             = study.Added
	AirHandler        = job.AirHandler
	AirflowHigh       = study.AirflowHigh
	AirflowShort      = study.AirflowShort
	Better            = compare.Better
	ByFriction        = study.ByFriction
	ByNumbers         = study.ByNumbers
	BySamples         = study.BySamples
	ByVelocity        = study.ByVelocity
	Caution           = study.Caution
	Cooling           = job.Cooling
	DustLow           = job.DustLow
	DustOrdinary      = job.DustOrdinary
	DustPets          = job.DustPets
	DustWorks         = job.DustWorks
	EndsAtAirflow     = study.EndsAtAirflow
	EndsAtCapacity    = study.EndsAtCapacity
	EndsAtDrop        = study.EndsAtDrop
	EndsAtTime        = study.EndsAtTime
	FaceVelocity      = study.FaceVelocity
	FewestStops       = study.FewestStops
	FilterDrop        = study.FilterDrop
	FilterLeak        = study.FilterLeak
	FirstOfAlike      = study.FirstOfAlike
	Frost             = study.Frost
	FrostRisk         = study.FrostRisk
	Furnace           = job.Furnace
	FurnaceWithCoil   = job.FurnaceWithCoil
	GenericFilterName = assume.GenericFilterName
	Good              = study.Good
	Heating           = job.Heating
	IFGC              = job.IFGC
	InCabinet         = job.InCabinet
	InGrille          = job.InGrille
	InSlot            = job.InSlot
	InchSizes         = job.InchSizes
	KeepsFineness     = study.KeepsFineness
	KindNoFilter      = study.KindNoFilter
	KindOption        = study.KindOption
	KindToday         = study.KindToday
	LeastCost         = study.LeastCost
	Left              = study.Left
	Less              = compare.Less
	Lessened          = study.Lessened
	LessenedClean     = study.LessenedClean
	LimitHigher       = study.LimitHigher
	MetricSizes       = job.MetricSizes
	More              = compare.More
	MostFaults        = job.MostFaults
	MostRemoved       = study.MostRemoved
	Nearer            = compare.Nearer
	Neither           = compare.Neither
	NoEnds            = job.NoEnds
	NoFilterName      = job.NoFilterName
	NoOptions         = study.NoOptions
	NoneImproves      = study.NoneImproves
	NoneNeeded        = study.NoneNeeded
	NotHeld           = study.NotHeld
	OffTable          = study.OffTable
	OnlyOne           = study.OnlyOne
	Other             = compare.Other
	OutputAtSeaLevel  = job.OutputAtSeaLevel
	OutputAtSite      = job.OutputAtSite
	OverWhenClean     = study.OverWhenClean
	PartInTable       = house.PartInTable
	PortInlet         = house.PortInlet
	PortOutlet        = house.PortOutlet
	PortReturn        = house.PortReturn
	PortSupply        = house.PortSupply
	RangeShare        = compare.RangeShare
	ReadingShare      = judge.ReadingShare
	Removed           = study.Removed
	RemovedClean      = study.RemovedClean
	RiseHigh          = study.RiseHigh
	RiseLow           = study.RiseLow
	Same              = compare.Same
	Schema            = job.Schema
	StandsBetter      = compare.StandsBetter
	StandsMixed       = compare.StandsMixed
	StandsTooClose    = compare.StandsTooClose
	StandsWorse       = compare.StandsWorse
	StaticHigh        = study.StaticHigh
	Stop              = study.Stop
	SureShare         = compare.SureShare
	Title24           = job.Title24
	TodayName         = job.TodayName
	TooCloseToSay     = study.TooCloseToSay
	Unclear           = study.Unclear
	Unsure            = compare.Unsure
	UsualEnds         = job.UsualEnds
	UsualSamples      = sampling.UsualSamples
	UsualSeed         = sampling.UsualSeed
	WhenBoth          = study.WhenBoth
	WhenClean         = study.WhenClean
	WhenLoaded        = study.WhenLoaded
	Worse             = compare.Worse
	Worsened          = study.Worsened
)

var (
	ErrNoMedia  = pleats.ErrNoMedia
	ErrUnsolved = study.ErrUnsolved
)

func CheckSets() []CheckSet { return job.CheckSets() }

func WorstFirst(fs []Finding) { judge.WorstFirst(fs) }

func Measures() []Measure { return compare.Measures() }

func MoreFaults(n int) *FieldError { return job.MoreFaults(n) }

func MostItems(element reflect.Type) int { return job.MostItems(element) }

func MostLetters(name string) int { return job.MostLetters(name) }

func PlaceKinds() []PlaceKind { return job.PlaceKinds() }

func RangeFindings(ranges []OptionRange) []Finding { return compare.RangeFindings(ranges) }

func Ranges(ctx context.Context, job Job, samples int, seed uint64, done func(int)) ([]OptionRange, error) {
	return sampling.Ranges(ctx, job, samples, seed, done)
}

func ReadingMargin(predicted units.Pressure) units.Pressure { return judge.ReadingMargin(predicted) }

func SweepPleats(f filter.Filter, face units.Speed, altitude units.Length, depths []units.Length) ([]PleatSweep, error) {
	return pleats.SweepPleats(f, face, altitude, depths)
}

func TapName(name string) string { return job.TapName(name) }

func UsualDeviations() Deviations { return job.UsualDeviations() }

func Compare(s *Study, v View, ranges []OptionRange) Comparison { return compare.Compare(s, v, ranges) }

func CoolingTime(s *Study, o *OptionResult) (share float64, known bool) {
	return money.CoolingTime(s, o)
}

func WithRanges(s *Study, ranges []OptionRange) *Study { return recommend.WithRanges(s, ranges) }

func AddSize(j *Job, z Size) (option string) { return search.AddSize(j, z) }

func AddUpgrade(j *Job, u Upgrade) (option string) { return upgrade.AddUpgrade(j, u) }

func SlotOf(z *Size, filter string) Slot { return search.SlotOf(z, filter) }
