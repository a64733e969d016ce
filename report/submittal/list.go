package submittal

// Sections returns the names of the sections in their order in the document.
func Sections() []string {
	names := make([]string, len(sections()))
	for i, s := range sections() {
		names[i] = s.Name
	}
	return names
}
