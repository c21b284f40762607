package formula

import "dropleg/engine/unit"

// NewValues is an empty set of values, ready for Put.
func NewValues() Values {
	return Values{Num: map[string]float64{}, Word: map[string]string{}, Flow: map[string]unit.FlowReading{}}
}

// Num makes values of numbers alone; the map is used as it stands.
func Num(numbers map[string]float64) Values {
	v := NewValues()
	v.Num = numbers
	return v
}

// Has says whether the key was given, as a number, a word or a flow.
func (v Values) Has(key string) bool {
	_, num := v.Num[key]
	_, word := v.Word[key]
	_, flow := v.Flow[key]
	return num || word || flow
}

// Get is the number of the key, or otherwise where it was not given.
func (v Values) Get(key string, otherwise float64) float64 {
	if x, ok := v.Num[key]; ok {
		return x
	}
	return otherwise
}

// GetWord is the word of the key, or otherwise where it was not given.
func (v Values) GetWord(key, otherwise string) string {
	if w, ok := v.Word[key]; ok {
		return w
	}
	return otherwise
}

// Yes says whether a yes-or-no was given and is yes.
func (v Values) Yes(key string) bool { return v.Num[key] != 0 }

// Put sets a number in SI. The values must come from NewValues or Num.
func (v Values) Put(key string, si float64) { v.Num[key] = si }

// PutWord sets a word.
func (v Values) PutWord(key, word string) { v.Word[key] = word }

// PutYes sets a yes or no.
func (v Values) PutYes(key string, yes bool) {
	v.Num[key] = 0
	if yes {
		v.Num[key] = 1
	}
}

// PutFlow sets a flow as stated.
func (v Values) PutFlow(key string, f unit.FlowReading) { v.Flow[key] = f }

// clone copies v, so that filling in defaults leaves the caller's maps alone.
func (v Values) clone() Values {
	c := NewValues()
	for k, x := range v.Num {
		c.Num[k] = x
	}
	for k, w := range v.Word {
		c.Word[k] = w
	}
	for k, f := range v.Flow {
		c.Flow[k] = f
	}
	return c
}
