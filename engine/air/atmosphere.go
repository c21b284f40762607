package air

import (
	"math"

	"dropleg/engine/unit"
)

// StandardPressure is the atmosphere at sea level, 101325 Pa exactly.
const StandardPressure unit.AbsPressure = 101325

// Constants of the standard atmosphere (cite iso2533, us-std-atm), which
// has its own gas constant. ISO 2533 prints the molar mass with two digits
// more, 28.964420: pressures then differ by 4e-7 at 4 km.
const (
	standardR      = 8314.32 / 28.9644 // J/(kg·K), 287.0531
	standardG      = 9.80665           // m/s²
	earthRadius    = 6356766.0         // m, for geopotential from geometric height
	altitudeLeast  = -2000.0           // m geopotential
	altitudeMost   = 32000.0
	seaLevelKelvin = 288.15
)

// layers of the standard atmosphere: foot in geopotential metres, rise of
// temperature in K/m.
var layers = [...]struct{ foot, lapse float64 }{
	{0, -0.0065}, {11000, 0}, {20000, 0.001},
}

// Atmosphere is the standard air at one height.
type Atmosphere struct {
	Pressure    unit.AbsPressure
	Temperature unit.Temperature
	Density     unit.Density
	SoundSpeed  unit.Velocity // ideal gas, cp/cv = 1.4 as the standard has it
}

// AtmosphereAt is the standard atmosphere (ISO 2533, ICAO) at geopotential
// height h, the height of tables of altitude: in a layer with lapse L
// p = pb (T/Tb)^(-g/(R L)), T = Tb + L (h - hb); without lapse
// p = pb exp(-g (h - hb)/(R T)). From -2000 to 32000 m; outside: an error.
// Weather moves the pressure of a place by 3 % either way.
func AtmosphereAt(h unit.Length) (Atmosphere, error) {
	if err := between("height", float64(h), altitudeLeast, altitudeMost, "m"); err != nil {
		return Atmosphere{}, err
	}
	// Climb layer by layer; beneath sea level the first layer is carried downward.
	p, t := float64(StandardPressure), seaLevelKelvin
	for i, layer := range layers {
		rise := float64(h) - layer.foot
		if i+1 < len(layers) {
			rise = math.Min(rise, layers[i+1].foot-layer.foot)
		}
		top := t + layer.lapse*rise
		if layer.lapse == 0 {
			p *= math.Exp(-standardG * rise / (standardR * t))
		} else {
			p *= math.Pow(top/t, -standardG/(standardR*layer.lapse))
		}
		t = top
		if i+1 < len(layers) && float64(h) <= layers[i+1].foot {
			break
		}
	}
	return Atmosphere{
		Pressure:    unit.AbsPressure(p),
		Temperature: unit.Temperature(t),
		Density:     unit.Density(p / (standardR * t)),
		SoundSpeed:  unit.Velocity(math.Sqrt(Kappa * standardR * t)),
	}, nil
}

// Geopotential is the geopotential height of geometric height z: r z/(r + z),
// r = 6356766 m. The two differ by 0.05 % at 3 km.
func Geopotential(z unit.Length) unit.Length {
	return unit.Length(earthRadius * float64(z) / (earthRadius + float64(z)))
}
