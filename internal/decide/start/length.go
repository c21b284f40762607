package start

import (
	"math"
	"strconv"

	"dropleg/engine/unit"
)

// length is a length to the millimetre, as a plan states it.
func length(x float64) unit.Length { return unit.Length(math.Round(x*1e3) / 1e3) }

// metres is a length in words, to the centimetre.
func metres(x float64) string {
	return strconv.FormatFloat(math.Round(x*100)/100, 'f', -1, 64) + " m"
}

// bar is a pressure in words, as a first plan tells it.
func bar(p unit.GaugePressure) string {
	return strconv.FormatFloat(math.Round(float64(p)/1e4)/10, 'f', -1, 64) + " bar"
}
