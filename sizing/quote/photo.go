package quote

// Photo is a picture taken at the house. It is kept inside the job file or in a file
// beside it.
type Photo struct {
	Shows   PhotoSubject `json:"shows,omitzero"`
	Caption string       `json:"caption,omitzero"`
	// File is the name of a JPEG or PNG file in the folder of the job file.
	File string `json:"file,omitzero"`
	// Data is the picture, a JPEG file in base64.
	Data string `json:"data,omitzero"`
	// OnProposal is true where it is printed on the customer's pages too; the
	// work order has all photos.
	OnProposal bool `json:"on_proposal,omitzero"`
}

// PhotoSubject is what a photo shows.
type PhotoSubject string

const (
	ShowsPlate  PhotoSubject = "plate"  // of the equipment
	ShowsCloset PhotoSubject = "closet" // or wherever the equipment stands
	ShowsGauge  PhotoSubject = "gauge"
	ShowsFilter PhotoSubject = "filter"
	ShowsOther  PhotoSubject = "other"
)

// Values are the words that a file may hold.
func (PhotoSubject) Values() []string {
	return []string{string(ShowsPlate), string(ShowsCloset), string(ShowsGauge), string(ShowsFilter), string(ShowsOther)}
}
