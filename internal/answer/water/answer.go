package water

import (
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// Ask is what is asked. The zero Ask takes everything from the job.
type Ask struct {
	Hours    float64     // worked a day; 0: a fifth of the job's week, else eight
	Humidity *unit.Ratio // of the air outside, both seasons; nil: the job's on the hot day
	Purge    *unit.Ratio // share of its rated flow that a regenerating dryer blows off
}

// Answer is the water of a shop.
type Answer struct {
	Hours    float64  `json:"hours_1_d"`
	Mean     float64  `json:"mean_free_air_m3_s"` // what the compressors deliver, over the working time
	Seasons  []Season `json:"seasons"`            // cold, warm
	Supposed []string `json:"supposed"`
	Untold   string   `json:"untold,omitempty"`
}

// Season is one end of the year.
type Season struct {
	Name     string   `json:"season"` // cold, warm
	In       float64  `json:"taken_in_kg_1_d"`
	Drained  float64  `json:"drained_kg_1_d"`
	Carried  float64  `json:"carried_out_kg_1_d"` // with the air of outlets, leaks and purge
	Falls    []Fall   `json:"falls"`
	Gathered []Gather `json:"gathered"`
	Lines    []Line   `json:"lines"`
	Dryers   []Dryer  `json:"dryers"`
	Outlets  []Outlet `json:"outlets"`
}

// Litres is water a day with its range.
type Litres struct {
	Likely float64 `json:"L_1_d"`
	Low    float64 `json:"L_1_d_low"`
	High   float64 `json:"L_1_d_high"`
}

// Fall is where water falls out and where it runs to.
type Fall struct {
	ID job.ID `json:"id"`
	Litres
	To job.ID `json:"to,omitempty"`
	// How it leaves: drain, low point (no drain there), outlet, dryer.
	How string `json:"how"`
}

// Gather is what comes together at one place.
type Gather struct {
	ID job.ID `json:"id"`
	Litres
	How     string `json:"how"`
	Freezes bool   `json:"freezes"` // the place stands under 0 °C
}

// Line is a run with the air in it.
type Line struct {
	ID       job.ID            `json:"id"`
	Room     unit.Temperature  `json:"line_C"` // at rest the line stands as warm as its room
	In       unit.Temperature  `json:"air_in_C"`
	Out      unit.Temperature  `json:"air_out_C"`
	Dew      *unit.Temperature `json:"pressure_dew_point_C,omitempty"` // of the air that enters
	Collects bool              `json:"collects"`
	Freezes  bool              `json:"freezes"`
	Litres   Litres            `json:"falls"`
}

// Dryer is what a dryer sees and leaves.
type Dryer struct {
	ID       job.ID            `json:"id"`
	Sees     string            `json:"sees"`                // compressors, tools
	Flow     unit.FreeAir      `json:"free_air_m3_s"`       // while it works
	Rated    unit.FreeAir      `json:"rated_free_air_m3_s"` // on its plate
	Able     unit.FreeAir      `json:"able_free_air_m3_s"`  // here, with inlet temperature and pressure
	Inlet    unit.Temperature  `json:"inlet_C"`
	Stated   unit.Temperature  `json:"stated_dew_point_C"`
	Out      *unit.Temperature `json:"pressure_dew_point_C,omitempty"`
	Purge    unit.FreeAir      `json:"purge_free_air_m3_s,omitempty"`
	Takes    Litres            `json:"takes"`
	Filling  unit.Mass         `json:"desiccant_kg,omitempty"` // of a bed that is changed when it is spent
	Lasts    *Days             `json:"lasts,omitempty"`
	Untaking bool              `json:"idle,omitempty"` // the air that comes is drier than it can make it
}

// Need is what a tool wants.
type Need struct {
	Tool     job.ID `json:"tool"`
	Class    string `json:"water_class"`
	Met      bool   `json:"met"`
	Supposed bool   `json:"supposed,omitempty"`
	// What it wants beyond that, "" for nothing, and whether the makers' claims reach it.
	Particles string `json:"particle_class,omitempty"`
	Oil       string `json:"oil_class,omitempty"`
	Claimed   bool   `json:"claimed"`
}

// Outlet is the air at an outlet.
type Outlet struct {
	ID     job.ID            `json:"id"`
	Dew    *unit.Temperature `json:"pressure_dew_point_C,omitempty"`
	Air    unit.Temperature  `json:"air_C"`
	Liquid float64           `json:"liquid_g_m3"` // per m³ of free air
	Class  string            `json:"water_class"`
	Claim  Claim             `json:"claim"`
	Needs  []Need            `json:"needs,omitempty"`
	Idle   bool              `json:"idle,omitempty"` // nothing runs here: the air at rest
}
