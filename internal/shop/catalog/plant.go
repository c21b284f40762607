// CONTRACT: generic classes of plant.

package catalog

import (
	"dropleg/engine/cite"
	"dropleg/engine/unit"
)

// Machine is a generic class of compressor.
type Machine struct {
	Machine      string             `json:"machine"`
	Words        string             `json:"words"`
	Power        unit.Power         `json:"power_kW"`
	FreeAir      Span               `json:"free_air_m3_s"` // delivered at At
	At           unit.GaugePressure `json:"at_kPa_g"`
	CutIn        unit.GaugePressure `json:"cut_in_kPa_g"`
	CutOut       unit.GaugePressure `json:"cut_out_kPa_g"`
	Control      string             `json:"control"` // "start-stop", "load-unload", "speed"
	Stages       int                `json:"stages"`
	StartsPerH   float64            `json:"starts_1_h,omitempty"`
	DutyMost     float64            `json:"duty_most,omitempty"`
	Receiver     unit.Volume        `json:"receiver_L,omitempty"` // usual receiver under it
	DeliveryTemp unit.TempDiff      `json:"delivery_over_room_K"`
	cite.Ref
}

// Treat is a generic class of treatment part: filter, separator, dryer, aftercooler, regulator, lubricator.
type Treat struct {
	Item      string             `json:"item"`
	Kind      string             `json:"kind"` // kind it fills in
	Words     string             `json:"words"`
	Size      string             `json:"size,omitempty"`
	RatedFlow unit.FreeAir       `json:"rated_free_air_m3_s,omitempty"`
	RatedAt   unit.GaugePressure `json:"rated_at_kPa_g,omitempty"`
	Clean     unit.PressureDiff  `json:"clean_kPa,omitempty"`
	Loaded    unit.PressureDiff  `json:"loaded_kPa,omitempty"`
	C         unit.Conductance   `json:"C_m3_s_Pa,omitempty"`
	B         float64            `json:"b,omitempty"`
	Droop     unit.PressureDiff  `json:"droop_kPa,omitempty"` // fall of set pressure at rated flow
	DewPoint  *float64           `json:"pressure_dew_point_C,omitempty"`
	Rating    unit.GaugePressure `json:"rating_kPa_g,omitempty"`
	MaxTemp   float64            `json:"max_C,omitempty"`
	// Particles and Oil are the classes of ISO 8573-1 that such parts are sold as reaching.
	Particles string `json:"particle_class,omitempty"`
	Oil       string `json:"oil_class,omitempty"`
	// Desiccant is the filling of a cartridge that is changed when it is spent.
	Desiccant unit.Mass `json:"desiccant_kg,omitempty"`
	cite.Ref
	Note string `json:"note,omitempty"`
}
