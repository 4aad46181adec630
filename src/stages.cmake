# The pipeline, in order. A stage may include its own headers and those of stages above it.
set(TEETALLY_STAGES
  base catalog verify design garden hydraulics needs offers purchase quote store render tool)
