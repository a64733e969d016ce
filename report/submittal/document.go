package submittal

import (
	"reflect"
	"unsafe"

	"github.com/johnfercher/maroto/v2/pkg/core"
	"github.com/phpdave11/gofpdf"
)

// fpdf returns the document below maroto, which alone can draw vectors, set bookmarks and place text to a tenth of a millimetre.
// maroto keeps it in an unexported field, so this looks inside; it is nil when a later maroto has changed, and a test asserts that it is not.
func fpdf(p core.Provider) *gofpdf.Fpdf {
	v := reflect.ValueOf(p)
	if v.Kind() != reflect.Pointer || v.Elem().Kind() != reflect.Struct {
		return nil
	}
	f := v.Elem().FieldByName("fpdf")
	if !f.IsValid() {
		return nil
	}
	out, _ := reflect.NewAt(f.Type(), unsafe.Pointer(f.UnsafeAddr())).Elem().Interface().(*gofpdf.Fpdf)
	return out
}
