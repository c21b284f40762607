package job

import "dropleg/engine/unit"

// Site is where the shop stands and how its people count.
type Site struct {
	Altitude    *unit.Length      `json:"altitude_m,omitempty" min:"-500" max:"6000"`
	Barometer   *unit.AbsPressure `json:"barometer_kPa_abs,omitempty" min:"40" max:"115" doc:"local pressure; overrides altitude"`
	Hot         *unit.Temperature `json:"hot_C,omitempty" min:"-30" max:"70" doc:"hot design day, outside"`
	Cold        *unit.Temperature `json:"cold_C,omitempty" min:"-90" max:"50" doc:"cold design night, outside"`
	Humidity    *unit.Ratio       `json:"humidity,omitempty" min:"0" max:"1" doc:"relative, 0..1, on the hot day"`
	Currency    string            `json:"currency,omitempty" doc:"ISO 4217"`
	Units       string            `json:"units,omitempty" enum:"us,metric,mixed"`
	FlowAt      string            `json:"flow_reference,omitempty" enum:"iso1217,iso8778,normal,scfm60,scfm68d,scfm68h,scfm70" doc:"what unmarked nameplate flows mean here"`
	Electricity *float64          `json:"electricity_per_kWh,omitempty" min:"0"`
}
