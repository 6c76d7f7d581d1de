coatwright mix casting-epoxy 1 l
