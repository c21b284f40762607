package air

import (
	"math"
	"testing"
)

func TestVapourOfHumidReferences(t *testing.T) {
	es, err := SaturationPressure(293.15, OverWater)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(float64(es)/vapour20C-1) > 1e-10 {
		t.Errorf("es(20 °C) is %.12g, the references hold %.12g", float64(es), vapour20C)
	}
}
