// CONTRACT: quantity types used by every floor.

package unit

// The quantities of the program, each a float64 in the SI unit named. Two
// quantities of one dimension that must never be mixed up (gauge and absolute
// pressure, temperature and its difference, free air and actual volume flow)
// are two types, so that the compiler refuses the mistake.
type (
	Length      float64 // m
	Area        float64 // m²
	Volume      float64 // m³
	AbsPressure float64 // Pa, above vacuum
	// GaugePressure is Pa above the local atmosphere.
	GaugePressure float64
	// PressureDiff is a loss, a band or a resolution in Pa: neither gauge nor absolute.
	PressureDiff float64
	Temperature  float64 // K
	TempDiff     float64 // K
	MassFlow     float64 // kg/s
	// FreeAir is m³/s at the ISO 1217 reference (dry, 100 kPa, 20 °C); other
	// references are converted at the edge, by package air.
	FreeAir     float64
	VolumeFlow  float64 // m³/s at the conditions stated beside it
	Velocity    float64 // m/s
	Density     float64 // kg/m³
	Viscosity   float64 // Pa·s
	Duration    float64 // s
	Power       float64 // W
	Energy      float64 // J
	Mass        float64 // kg
	Stress      float64 // Pa; stress and modulus know no gauge
	Conductance float64 // m³/(s·Pa), sonic conductance of ISO 6358
	Frequency   float64 // 1/s
	Expansion   float64 // 1/K, linear
	Ratio       float64 // dimensionless
)

// Abs is the absolute pressure of p where the atmosphere stands at atm.
func (p GaugePressure) Abs(atm AbsPressure) AbsPressure { return AbsPressure(p) + atm }

// Gauge is what a gauge shows for p where the atmosphere stands at atm.
func (p AbsPressure) Gauge(atm AbsPressure) GaugePressure { return GaugePressure(p - atm) }

// Minus is the difference from q up to p.
func (p AbsPressure) Minus(q AbsPressure) PressureDiff { return PressureDiff(p - q) }

// Minus is the difference from q up to p.
func (p GaugePressure) Minus(q GaugePressure) PressureDiff { return PressureDiff(p - q) }

// Celsius is the temperature of t degrees Celsius (ITS-90: 0 °C = 273.15 K exactly).
func Celsius(t float64) Temperature { return Temperature(t + 273.15) }

// Celsius gives t in degrees Celsius.
func (t Temperature) Celsius() float64 { return float64(t) - 273.15 }
