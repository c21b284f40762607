package start

import (
	"math"

	"dropleg/engine/unit"
)

// length is a length to the millimetre, as a plan states it.
func length(x float64) unit.Length { return unit.Length(math.Round(x*1e3) / 1e3) }

// long is a length in words, in the units asked for.
func (b *brief) long(x float64) string { return unit.System(b.Units).Listed(unit.Length(x)) }

// pressure is a pressure in words, in the units asked for.
func (b *brief) pressure(p unit.GaugePressure) string {
	return unit.System(b.Units).Text(unit.KindGauge, float64(p), unit.Env{})
}
