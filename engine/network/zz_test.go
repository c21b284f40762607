package network
import "fmt"
type print struct{}

func (print) Step(s Step) { fmt.Printf("%+v\n", s) }
