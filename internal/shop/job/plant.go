package job

import "dropleg/engine/unit"

// Compressor is what the nameplate says, and the timed pump-up that overrides it.
type Compressor struct {
	FreeAir      *Flow               `json:"free_air,omitempty" doc:"delivered, at At"`
	At           *unit.GaugePressure `json:"at_kPa_g,omitempty" min:"0" max:"10000"`
	Displacement *Flow               `json:"displacement,omitempty" doc:"swept, not delivered"`
	CutIn        *unit.GaugePressure `json:"cut_in_kPa_g,omitempty" above:"0" max:"10000"`
	CutOut       *unit.GaugePressure `json:"cut_out_kPa_g,omitempty" above:"0" max:"10000"`
	Control      string              `json:"control,omitempty" enum:"start-stop,load-unload,speed"`
	Power        *unit.Power         `json:"power_kW,omitempty" above:"0" max:"10000"`
	Stages       int                 `json:"stages,omitempty" min:"0" max:"6"`
	StartsPerH   *float64            `json:"starts_1_h,omitempty" above:"0" max:"1000"`
	DutyMost     *unit.Ratio         `json:"duty_most,omitempty" above:"0" max:"1"`
	Lead         int                 `json:"lead,omitempty" min:"0" max:"100" doc:"order among several; 1 starts first"`
	PumpUp       *PumpUp             `json:"pump_up,omitempty"`
}

// PumpUp is a timed fill of a known volume with every outlet shut.
type PumpUp struct {
	Volume unit.Volume        `json:"volume_L" above:"0" max:"1000000"`
	From   unit.GaugePressure `json:"from_kPa_g" min:"0" max:"10000"`
	To     unit.GaugePressure `json:"to_kPa_g" above:"0" max:"10000"`
	Time   unit.Duration      `json:"time_s" above:"0" max:"1000000"`
}
