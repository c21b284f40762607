package water

// What is taken where the job does not say; common practice without a source, unless one is named.
const (
	heat, heatLow, heatHigh = 10.0, 5.0, 15.0 // W/(m² K) from the air in a bare line to a still room, on the bore:
	// free convection of 5 to 6 (1.32 (K/m)^¼, the handbooks' plain form for a horizontal cylinder) and
	// radiation of 1 to 5 by how bright the wall is.
	coolerOver, coolerLow, coolerHigh = 10.0, 6.0, 15.0 // K over the room, air-cooled aftercooler (dryers.csv DRYE-0048, recalled)
	storeOver, storeLow, storeHigh    = 5.0, 0.0, 10.0  // K over the room, air that leaves a receiver
	deliveryOver                      = 90.0            // K over the room, a compressor without aftercooler
	coldHumidity                      = 0.85            // outside, on a cold night
	warmHumidity                      = 0.60            // outside, on the hot day
	dayHours                          = 8.0
	heatCapacity                      = 1006.0 // J/(kg K) of dry air near room temperature
	freezing                          = 273.15 // K
	perLitre                          = 0.998  // kg in a litre of water
)

// bias is one reading of the uncertain figures.
type bias struct{ heat, cooler, store float64 }

// likely, then the two ends: lines and coolers that come nearest to the room, and farthest.
var biases = []bias{
	{heat, coolerOver, storeOver},
	{heatHigh, coolerLow, storeLow},
	{heatLow, coolerHigh, storeHigh},
}

// Capacity of a dryer over that at its rating conditions (ISO 7183: 35 °C inlet, 7 bar g),
// typical of published engineering tables, recalled (dryers.csv DRYE-0018 to 0038).
var (
	byInlet    = [][2]float64{{30, 1.2}, {35, 1}, {40, 0.84}, {45, 0.71}, {50, 0.59}, {55, 0.5}}
	byPressure = [][2]float64{{4, 0.77}, {5, 0.87}, {6, 0.94}, {7, 1}, {8, 1.05}, {10, 1.13}}
	// K over the stated dew point by flow over what it is able to.
	byLoad = [][2]float64{{1, 0}, {1.08, 2}, {1.18, 4}, {1.36, 7}}
)

// between reads a table: held at its first row, led on by its last two.
func between(table [][2]float64, x float64) float64 {
	if x <= table[0][0] {
		return table[0][1]
	}
	for i := 1; i < len(table); i++ {
		if x <= table[i][0] || i == len(table)-1 {
			a, b := table[i-1], table[i]
			return a[1] + (b[1]-a[1])*(x-a[0])/(b[0]-a[0])
		}
	}
	return table[0][1]
}
