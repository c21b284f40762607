package model

import "math"

// Loss coefficients that the catalogue does not carry because they follow from
// bores alone. On the velocity in the smaller bore, beta = small / large:
// sudden contraction 0.5 (1 - beta²), sudden enlargement (1 - beta²)²
// (recalled: Borda-Carnot and the usual handbook form; the catalogue's
// reference table lists both as such).
func contraction(beta float64) float64 { return 0.5 * (1 - beta*beta) }

func enlargement(beta float64) float64 { x := 1 - beta*beta; return x * x }

// gradual is what a tapered reducer keeps of a sudden step's loss (recalled,
// 30° cone).
const gradual = 0.5

// scaled moves a loss coefficient from one bore to another: the loss is
// K ρ v²/2 and v goes with 1/d², so K goes with d⁴.
func scaled(k, from, to float64) float64 {
	if from <= 0 || to <= 0 {
		return k
	}
	return k * math.Pow(to/from, 4)
}

// bendLe is the equivalent length in diameters of a smooth 90° bend by its
// radius over bore (reference table fittings_k, "pipe bend 90", read), linear
// between rows and held at the ends.
func bendLe(radiusOverBore float64) float64 {
	rows := [...][2]float64{{1, 20}, {2, 12}, {3, 12}, {4, 14}, {6, 17}, {8, 24}, {10, 30}}
	if radiusOverBore <= rows[0][0] {
		return rows[0][1]
	}
	for i := 1; i < len(rows); i++ {
		a, b := rows[i-1], rows[i]
		if radiusOverBore <= b[0] {
			return a[1] + (b[1]-a[1])*(radiusOverBore-a[0])/(b[0]-a[0])
		}
	}
	return rows[len(rows)-1][1]
}
