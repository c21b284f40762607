package network

import "encoding/json"

// Document is the bare network file. Expected is read past.
type Document struct {
	Title    string          `json:"title,omitempty"`
	Gas      GasSpec         `json:"gas"`
	Nodes    []NodeSpec      `json:"nodes"`
	Links    []LinkSpec      `json:"links"`
	Expected json.RawMessage `json:"expected,omitempty"`
}

// GasSpec is the state of the air. What is left out is that of dry air.
type GasSpec struct {
	Temperature     float64  `json:"temperature_K"`
	GasConstant     *float64 `json:"gas_constant_J_kgK,omitempty"`
	Compressibility *float64 `json:"compressibility,omitempty"`
	Viscosity       *float64 `json:"viscosity_Pa_s,omitempty"`
	Atmosphere      *float64 `json:"atmosphere_Pa_abs,omitempty"`
}

// NodeSpec is a node: a fixed pressure, or a demand, or an outflow to the
// atmosphere by C, b and m, or none of them.
type NodeSpec struct {
	ID       string   `json:"id"`
	Pressure *float64 `json:"pressure_Pa_abs,omitempty"`
	Demand   *float64 `json:"demand_kg_s,omitempty"`
	C        *float64 `json:"C_m3_s_Pa,omitempty"`
	B        *float64 `json:"b,omitempty"`
	M        *float64 `json:"m,omitempty"`
}

// LinkSpec is a link; which figures it has is a matter of its kind.
type LinkSpec struct {
	ID        string   `json:"id"`
	From      string   `json:"from"`
	To        string   `json:"to"`
	Kind      string   `json:"kind" enum:"pipe,iso6358,orifice,valve,check,regulator"`
	Length    *float64 `json:"length_m,omitempty"`
	Bore      *float64 `json:"bore_m,omitempty"`
	Roughness *float64 `json:"roughness_m,omitempty"`
	K         *float64 `json:"k,omitempty"`
	KReverse  *float64 `json:"k_reverse,omitempty"`
	Open      *bool    `json:"open,omitempty"`
	Cd        *float64 `json:"cd,omitempty"`
	C         *float64 `json:"C_m3_s_Pa,omitempty"`
	B         *float64 `json:"b,omitempty"`
	M         *float64 `json:"m,omitempty"`
	Cracking  *float64 `json:"cracking_Pa,omitempty"`
	Set       *float64 `json:"set_Pa_abs,omitempty"`
	Droop     *float64 `json:"droop_Pa_s_kg,omitempty"`
}

// Answer is the document with what was found.
type Answer struct {
	Title      string       `json:"title,omitempty"`
	Gas        GasSpec      `json:"gas"`
	Nodes      []NodeAnswer `json:"nodes"`
	Links      []LinkAnswer `json:"links"`
	Residuals  Residuals    `json:"residuals"`
	Iterations int          `json:"iterations"`
	// Refused says why there is no whole answer; the rest holds all the same.
	Refused *Refusal `json:"refused,omitempty"`
}

// NodeAnswer is a node with its pressure. A node that is shut off from every
// source has none, and says so.
type NodeAnswer struct {
	NodeSpec
	Outflow      *float64 `json:"outflow_kg_s,omitempty"`
	Undetermined bool     `json:"undetermined,omitempty"`
}

// LinkAnswer is a link with its flow, positive from From to To. Velocity and
// Mach number are those at the downstream end, where they are greatest, on the
// link's own bore; a link without one has none.
type LinkAnswer struct {
	LinkSpec
	Flow     float64  `json:"flow_kg_s"`
	Velocity *float64 `json:"velocity_m_s,omitempty"`
	Mach     *float64 `json:"mach,omitempty"`
}

// Residuals is how well the equations are met.
type Residuals struct {
	Mass float64 `json:"mass_kg_s"` // largest imbalance at a node
	Law  float64 `json:"law"`       // largest error of a link's law, as a share of its upstream p²
}

// Refusal is a NoAnswer in the document's words.
type Refusal struct {
	Reason Reason         `json:"reason"`
	Nodes  []RefusedShort `json:"nodes,omitempty"`
}

// RefusedShort is one node that cannot have what it asks for.
type RefusedShort struct {
	ID     string  `json:"id"`
	Demand float64 `json:"demand_kg_s"`
	Most   float64 `json:"most_kg_s"`
}
