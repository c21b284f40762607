package sheet

import "dropleg/internal/show/screen"

// listNames are the lists that come as CSV.
func listNames() []string {
	return []string{screen.BuyList, screen.NeedList, screen.CutList, screen.JointList}
}
