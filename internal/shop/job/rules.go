package job

import (
	"dropleg/engine/cite"
	"dropleg/engine/unit"
)

// Rules is what counts as short. A rule left out takes the default of rules.go, which says where it comes from.
type Rules struct {
	Margin        *unit.PressureDiff `json:"margin_kPa,omitempty" min:"0" max:"1000" doc:"wanted above a tool's least pressure"`
	MainVelocity  *unit.Velocity     `json:"main_velocity_m_s,omitempty" above:"0" max:"100"`
	DropVelocity  *unit.Velocity     `json:"drop_velocity_m_s,omitempty" above:"0" max:"100"`
	HoseVelocity  *unit.Velocity     `json:"hose_velocity_m_s,omitempty" above:"0" max:"300"`
	MainLoss      *unit.PressureDiff `json:"main_loss_kPa,omitempty" above:"0" max:"1000" doc:"receiver to the last take-off"`
	Slope         *unit.Ratio        `json:"slope,omitempty" min:"0" max:"1"`
	Growth        *unit.Ratio        `json:"growth,omitempty" min:"0" max:"10"`
	Leak          *unit.Ratio        `json:"leak,omitempty" min:"0" max:"0.9" doc:"share of the supply"`
	TestFactor    *unit.Ratio        `json:"test_factor,omitempty" min:"1" max:"2"`
	TestRule      string             `json:"test_rule,omitempty" enum:"b31.3,b31.9,b31.1,en13480-5,navy" doc:"the published rule that the test pressure follows; a factor of its own takes precedence"`
	Rare          *unit.Ratio        `json:"rare,omitempty" min:"0" max:"1" doc:"sets rarer than this share of the time are not planned for"`
	FreezeMargin  *unit.TempDiff     `json:"freeze_margin_K,omitempty" min:"0" max:"50"`
	Allowed       []string           `json:"allowed_stocks,omitempty"`
	StickKerf     *unit.Length       `json:"stick_kerf_m,omitempty" min:"0" max:"0.05" doc:"what a cut takes of a stick"`
	CoilKerf      *unit.Length       `json:"coil_kerf_m,omitempty" min:"0" max:"0.05" doc:"what a cut takes of a coil"`
	EndTrim       *unit.Length       `json:"end_trim_m,omitempty" min:"0" max:"1" doc:"taken off a length before it is used"`
	LeastRest     *unit.Length       `json:"least_rest_m,omitempty" min:"0" max:"100" doc:"what is left over and as long is kept"`
	SpareFittings *unit.Ratio        `json:"spare_fittings,omitempty" min:"0" max:"10" doc:"share of fittings on top, whole ones"`
	SpareClips    *unit.Ratio        `json:"spare_clips,omitempty" min:"0" max:"10" doc:"share of clips and fixings on top, whole ones"`
	PriceAge      *unit.Duration     `json:"price_age_d,omitempty" min:"0" max:"36525" doc:"prices older than this are told"`
	Upkeep        []Interval         `json:"upkeep,omitempty" doc:"intervals of upkeep that this shop keeps in place of the usual ones"`
}

// Interval is how often something is to be done here.
type Interval struct {
	Task  string   `json:"task" doc:"as records of upkeep name it: \"drain point.receiver-drain\""`
	Days  int      `json:"every_d" min:"1" max:"36525"`
	Hours *float64 `json:"every_running_h,omitempty" above:"0" max:"1000000" doc:"or so many running hours, whichever comes first"`
}

// Default is what a rule says where the job states nothing.
type Default struct {
	Key   string  // in the file, "margin_kPa"
	Value float64 // SI
	Words string  // why, in a sentence
	cite.Ref
}

// Ruled is a rule's value as it stands for a job.
type Ruled[T ~float64] struct {
	Value   T
	Stated  bool // by the job; else the default
	Default Default
}

// common is a default that nobody publishes.
func common() cite.Ref { return cite.Ref{Source: "common-practice", How: cite.Common} }

// The defaults. Each figure stands here and nowhere else.
var (
	defaultMargin        = Default{"margin_kPa", 0, "A tool's least pressure is taken as enough.", common()}
	defaultMainVelocity  = Default{"main_velocity_m_s", 6, "Mains are run at 6 to 9 m/s, so that loss stays small and water can settle.", common()}
	defaultDropVelocity  = Default{"drop_velocity_m_s", 15, "Branches and drop legs are short and may run at up to 15 m/s.", common()}
	defaultHoseVelocity  = Default{"hose_velocity_m_s", 30, "A hose of the usual few metres may run at up to 30 m/s before its loss bites.", common()}
	defaultMainLoss      = Default{"main_loss_kPa", 10e3, "From receiver to the last take-off a tenth of a bar is the usual allowance.", common()}
	defaultSlope         = Default{"slope", 0.01, "Mains fall 1 in 100 towards a drain.", common()}
	defaultGrowth        = Default{"growth", 0.2, "A shop buys tools: a fifth more demand in the years to come.", common()}
	defaultLeak          = Default{"leak", 0.10, "A tight system loses 5 to 10 % of its supply to leaks (row CHEC-0168).", cite.Ref{Source: "doe-tip3", How: cite.Read}}
	defaultTestFactor    = Default{"test_factor", 1.1, "Pneumatic test at 1.1 times the design pressure (row TEST-0057).", cite.Ref{Source: "b31.3", Place: "345.5.4", How: cite.Recalled}}
	defaultRare          = Default{"rare", 0.01, "What happens less than 1 % of the time is not planned for, as in the method of fixture units (row CHEC-0001).", cite.Ref{Source: "hunter1940", How: cite.Computed}}
	defaultFreezeMargin  = Default{"freeze_margin_K", 10, "Pressure dew point at least 10 K below the coldest line (row DRYE-0052).", cite.Ref{Source: "instrument-air", How: cite.Recalled}}
	defaultStickKerf     = Default{"stick_kerf_m", 0.002, "Sticks are sawn, by hand or with a chop saw: a cut takes 2 mm.", common()}
	defaultCoilKerf      = Default{"coil_kerf_m", 0, "Coils are cut with shears or a rolling cutter, which take nothing away.", common()}
	defaultEndTrim       = Default{"end_trim_m", 0, "The end of a length as it comes is square enough to be used.", common()}
	defaultLeastRest     = Default{"least_rest_m", 0.5, "Half a metre makes a drip leg or a stub another time; what is shorter is scrap.", common()}
	defaultSpareFittings = Default{"spare_fittings", 0, "As many as the drawing takes, and no more.", common()}
	defaultSpareClips    = Default{"spare_clips", 0, "As many as the lines ask for, and no more.", common()}
	defaultPriceAge      = Default{"price_age_d", 180 * 86400, "Lists of counters and merchants change about twice a year.", common()}
)

// Defaults lists the default of every rule in the order of the file.
func Defaults() []Default {
	return []Default{
		defaultMargin, defaultMainVelocity, defaultDropVelocity, defaultHoseVelocity, defaultMainLoss, defaultSlope,
		defaultGrowth, defaultLeak, defaultTestFactor, defaultRare, defaultFreezeMargin, defaultPriceAge,
		defaultStickKerf, defaultCoilKerf, defaultEndTrim, defaultLeastRest, defaultSpareFittings, defaultSpareClips,
	}
}

func ruled[T ~float64](stated *T, d Default) Ruled[T] {
	if stated != nil {
		return Ruled[T]{Value: *stated, Stated: true, Default: d}
	}
	return Ruled[T]{Value: T(d.Value), Default: d}
}

// RuleMargin is the pressure wanted above a tool's least.
func (j *Job) RuleMargin() Ruled[unit.PressureDiff] { return ruled(j.Rules.Margin, defaultMargin) }

// RuleMainVelocity is the greatest velocity in mains and rings.
func (j *Job) RuleMainVelocity() Ruled[unit.Velocity] {
	return ruled(j.Rules.MainVelocity, defaultMainVelocity)
}

// RuleDropVelocity is the greatest velocity in branches and drop legs.
func (j *Job) RuleDropVelocity() Ruled[unit.Velocity] {
	return ruled(j.Rules.DropVelocity, defaultDropVelocity)
}

// RuleHoseVelocity is the greatest velocity in hoses.
func (j *Job) RuleHoseVelocity() Ruled[unit.Velocity] {
	return ruled(j.Rules.HoseVelocity, defaultHoseVelocity)
}

// RuleMainLoss is the greatest loss from the receiver to the last take-off.
func (j *Job) RuleMainLoss() Ruled[unit.PressureDiff] {
	return ruled(j.Rules.MainLoss, defaultMainLoss)
}

// RuleSlope is the least fall of mains.
func (j *Job) RuleSlope() Ruled[unit.Ratio] { return ruled(j.Rules.Slope, defaultSlope) }

// RuleGrowth is the share of demand added for the years to come.
func (j *Job) RuleGrowth() Ruled[unit.Ratio] { return ruled(j.Rules.Growth, defaultGrowth) }

// RuleLeak is the share of the supply that leaks.
func (j *Job) RuleLeak() Ruled[unit.Ratio] { return ruled(j.Rules.Leak, defaultLeak) }

// RuleTestFactor is test pressure over design pressure.
func (j *Job) RuleTestFactor() Ruled[unit.Ratio] { return ruled(j.Rules.TestFactor, defaultTestFactor) }

// RuleRare is the share of time below which a set of tools is not planned for.
func (j *Job) RuleRare() Ruled[unit.Ratio] { return ruled(j.Rules.Rare, defaultRare) }

// RuleFreezeMargin is by how much the dew point stays below the coldest line.
func (j *Job) RuleFreezeMargin() Ruled[unit.TempDiff] {
	return ruled(j.Rules.FreezeMargin, defaultFreezeMargin)
}

// RuleStickKerf is what a cut takes of a stick.
func (j *Job) RuleStickKerf() Ruled[unit.Length] { return ruled(j.Rules.StickKerf, defaultStickKerf) }

// RuleCoilKerf is what a cut takes of a coil.
func (j *Job) RuleCoilKerf() Ruled[unit.Length] { return ruled(j.Rules.CoilKerf, defaultCoilKerf) }

// RuleEndTrim is what is taken off a length before it is used.
func (j *Job) RuleEndTrim() Ruled[unit.Length] { return ruled(j.Rules.EndTrim, defaultEndTrim) }

// RuleLeastRest is the shortest left-over that is worth keeping.
func (j *Job) RuleLeastRest() Ruled[unit.Length] { return ruled(j.Rules.LeastRest, defaultLeastRest) }

// RuleSpareFittings is the share of fittings that is bought on top.
func (j *Job) RuleSpareFittings() Ruled[unit.Ratio] {
	return ruled(j.Rules.SpareFittings, defaultSpareFittings)
}

// RuleSpareClips is the share of clips and fixings that is bought on top.
func (j *Job) RuleSpareClips() Ruled[unit.Ratio] {
	return ruled(j.Rules.SpareClips, defaultSpareClips)
}

// RulePriceAge is from when on a price counts as old.
func (j *Job) RulePriceAge() Ruled[unit.Duration] { return ruled(j.Rules.PriceAge, defaultPriceAge) }
