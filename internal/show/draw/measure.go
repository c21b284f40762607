package draw

import (
	"fmt"
	"math"
	"strconv"

	"dropleg/engine/unit"
)

// dimension is a length as it stands at a dimension line: metres to the
// centimetre, or feet and whole inches.
func (s Sheet) dimension(metres float64) string {
	if s.Units != unit.US {
		return strconv.FormatFloat(math.Round(metres*100)/100, 'f', 2, 64)
	}
	inches := math.Round(math.Abs(metres) / 0.0254)
	sign := ""
	if metres < 0 && inches > 0 {
		sign = "−"
	}
	return fmt.Sprintf("%s%.0f'-%.0f\"", sign, math.Floor(inches/12), math.Mod(inches, 12))
}

// level is a height over the floor with its sign.
func (s Sheet) level(metres float64) string {
	text := s.dimension(metres)
	switch {
	case metres < 0 && text[0] == '-':
		return "−" + text[1:]
	case metres < 0:
		return text
	}
	return "+" + text
}

// reachOf is a length as it is bought: metres without idle zeros, or feet.
func (s Sheet) reachOf(metres float64) string {
	if s.Units != unit.US {
		return trim(math.Round(metres*100)/100) + " m"
	}
	return trim(math.Round(metres/0.3048*10)/10) + " ft"
}
