package hourly

// ObservedRecord hands the observed records, converted to plain hourly files, to tests outside the package.
var ObservedRecord = observedRecord
