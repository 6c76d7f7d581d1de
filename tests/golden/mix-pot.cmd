coatwright mix flood-coat-epoxy 2 kg
