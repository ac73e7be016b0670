@echo off
rem file-type.cmd lets Explorer open *.job.json and *.lesson.json with the
rem returnbench.exe beside it, for this user alone; file-type.cmd /remove takes
rem that back. Windows goes by the last part of a name, which is .json for any
rem such file: returnbench is therefore offered under "Open with" for .json, and
rem the program that opens .json by default stays as it is.
setlocal
set KEY=HKCU\Software\Classes
set EXE=%~dp0returnbench.exe
if /i "%~1"=="/remove" goto remove
if not exist "%EXE%" (
  echo returnbench.exe is not beside this file; keep the two in one folder.
  exit /b 1
)
reg add "%KEY%\Applications\returnbench.exe" /v FriendlyAppName /d returnbench /f >nul || exit /b 1
reg add "%KEY%\Applications\returnbench.exe\DefaultIcon" /ve /d "\"%EXE%\",0" /f >nul || exit /b 1
reg add "%KEY%\Applications\returnbench.exe\shell\open\command" /ve /d "\"%EXE%\" open \"%%1\"" /f >nul || exit /b 1
reg add "%KEY%\Applications\returnbench.exe\SupportedTypes" /v .json /d "" /f >nul || exit /b 1
reg add "%KEY%\.json\OpenWithList\returnbench.exe" /ve /d "" /f >nul || exit /b 1
echo returnbench is now under "Open with" for its files.
exit /b 0
:remove
reg delete "%KEY%\Applications\returnbench.exe" /f >nul 2>nul
reg delete "%KEY%\.json\OpenWithList\returnbench.exe" /f >nul 2>nul
echo returnbench is no longer under "Open with".
exit /b 0
