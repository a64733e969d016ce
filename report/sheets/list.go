package sheets

// Sheet is a result sheet as the reference page tells it.
type Sheet struct {
	Key, Name string
	Columns   []SheetColumn
}

// List returns the result sheets in their order in the workbook.
func List() []Sheet {
	var list []Sheet
	for _, s := range all() {
		list = append(list, Sheet{s.Key, s.Name, s.Columns})
	}
	return list
}
