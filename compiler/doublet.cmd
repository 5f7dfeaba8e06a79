@echo off
rem Runs Doublet from its jar, in the zip or after "mvn -DskipTests package". Written for Windows, and untried there.
set "doublet=%~dp0doublet.jar"
if not exist "%doublet%" set "doublet=%~dp0target\doublet.jar"
if defined JAVA_HOME ("%JAVA_HOME%\bin\java" -jar "%doublet%" %*) else (java -jar "%doublet%" %*)
