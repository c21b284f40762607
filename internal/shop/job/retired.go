package job

import "slices"

// isRetired says whether an id was removed from the job.
func isRetired(j *Job, id ID) bool {
	_, found := slices.BinarySearch(j.Retired, id)
	return found
}

// retire adds an id to the removed ones; the list given is left as it was.
func retire(list []ID, id ID) []ID {
	i, found := slices.BinarySearch(list, id)
	if found {
		return list
	}
	return slices.Insert(slices.Clone(list), i, id)
}

// unretire gives an id back, for undo only.
func unretire(list []ID, id ID) []ID {
	i, found := slices.BinarySearch(list, id)
	if !found {
		return list
	}
	if len(list) == 1 {
		return nil
	}
	return slices.Delete(slices.Clone(list), i, i+1)
}
